// Holds a coin for comparison with others, and leads to where they are compared. The page of a coin is whole without.
(function () {
  "use strict";

  var button = document.querySelector("button.hold");
  if (!button) { return; }
  var link = document.querySelector(".holding a");
  var own = button.getAttribute("data-coin");
  var most = Number(button.getAttribute("data-most"));
  var page = link.getAttribute("href");
  var pattern = link.textContent;

  function read() {
    try { return JSON.parse(window.localStorage.getItem("held-coins") || "[]"); } catch (refused) { return []; }
  }

  var held = read();

  function show() {
    var isHeld = held.indexOf(own) >= 0;
    button.setAttribute("aria-pressed", String(isHeld));
    button.disabled = !isHeld && held.length >= most;
    link.hidden = !held.length;
    link.textContent = pattern.replace("{n}", held.length);
    link.setAttribute("href", page + "#coins=" + held.map(encodeURIComponent).join(","));
  }

  button.addEventListener("click", function () {
    held = read();
    var at = held.indexOf(own);
    if (at >= 0) { held.splice(at, 1); } else if (held.length < most) { held.push(own); }
    try { window.localStorage.setItem("held-coins", JSON.stringify(held)); } catch (refused) { /* for this page */ }
    show();
  });
  window.addEventListener("pageshow", function () { held = read(); show(); });
  show();
}());
