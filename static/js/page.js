/** Every page but the bench. Where the files are collected for serving, this becomes one script. */
import "./offline/register.js";
import "./alarms.js";
