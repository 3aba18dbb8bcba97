// Light or dark, as chosen here before; without a choice, as the reader's system has it.
// It stands in the head, so that a page is drawn in the chosen look from the start.
(function () {
  "use strict";
  var root = document.documentElement;
  var system = window.matchMedia("(prefers-color-scheme: dark)");

  // What only scripts can serve is shown from the start, so that nothing moves once they have run.
  root.classList.add("scripted");

  function recall() {
    try { return window.localStorage.getItem("look"); } catch (refused) { return null; }
  }

  function remember(look) {
    try { window.localStorage.setItem("look", look); } catch (refused) { /* it lasts for this page */ }
  }

  function isDark() {
    var chosen = root.getAttribute("data-look");
    return chosen ? chosen === "dark" : system.matches;
  }

  var before = recall();
  if (before === "dark" || before === "light") { root.setAttribute("data-look", before); }

  document.addEventListener("DOMContentLoaded", function () {
    var button = document.querySelector("button.look");
    if (!button) { return; }
    button.setAttribute("aria-pressed", String(isDark()));
    button.hidden = false;
    button.addEventListener("click", function () {
      var look = isDark() ? "light" : "dark";
      root.setAttribute("data-look", look);
      remember(look);
      button.setAttribute("aria-pressed", String(isDark()));
    });
  });
}());
