/** The bench page. Where the files are collected for serving, this becomes one script. */
import "./offline/register.js";
import "./alarms.js";
import "./bench/run.js";
