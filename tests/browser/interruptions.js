/**
 * Watches a page for what interrupts: a panel, a dialogue or an assertive message that came without a tap. Each is kept
 * with the page's time in window.interruptions.
 */
(() => {
  const ANSWER_MS = 2000; // what comes so soon after a tap is its answer
  const ASSERTIVE = "[role=alert], [role=alertdialog], [aria-live=assertive]";
  const kept = (window.interruptions = []);
  const seen = new Map();
  let tappedAt = -Infinity;

  const note = (element, words) => {
    if (words && Date.now() - tappedAt > ANSWER_MS) kept.push({ at: Date.now(), words, id: element?.id ?? "" });
  };
  for (const type of ["pointerdown", "pointerup", "click", "keydown"]) {
    addEventListener(type, (event) => event.isTrusted && (tappedAt = Date.now()), true);
  }
  document.addEventListener("toggle", (event) => event.newState === "open" && note(event.target, wordsOf(event.target)), true);
  for (const name of ["alert", "confirm", "prompt"]) window[name] = (words) => void note(null, `${name}: ${words}`);
  const showModal = HTMLDialogElement.prototype.showModal;
  HTMLDialogElement.prototype.showModal = function (...given) {
    note(this, wordsOf(this));
    return showModal.apply(this, given);
  };

  function wordsOf(element) {
    return element.checkVisibility() ? element.innerText.replace(/\s+/g, " ").trim() : "";
  }
  const look = () => {
    for (const element of document.querySelectorAll(ASSERTIVE)) {
      const words = wordsOf(element);
      if (words !== (seen.get(element) ?? "")) note(element, words);
      seen.set(element, words);
    }
  };
  addEventListener("DOMContentLoaded", () => {
    look();
    new MutationObserver(look).observe(document, { attributes: true, childList: true, characterData: true, subtree: true });
  });
})();
