// Holds coins for comparison with others, and leads to where they are compared. A page is whole without.
(function () {
  "use strict";

  var box = document.querySelector("[data-most]");
  if (!box) { return; }
  var link = document.querySelector(".holding a");
  var most = Number(box.getAttribute("data-most"));
  var page = link.getAttribute("href");
  var pattern = link.textContent;

  function read() {
    try { return JSON.parse(window.localStorage.getItem("held-coins") || "[]"); } catch (refused) { return []; }
  }

  var held = read();

  function show() {
    Array.prototype.forEach.call(document.querySelectorAll("button.hold"), function (button) {
      var isHeld = held.indexOf(button.getAttribute("data-coin")) >= 0;
      button.setAttribute("aria-pressed", String(isHeld));
      button.disabled = !isHeld && held.length >= most;
    });
    link.hidden = !held.length;
    link.textContent = pattern.replace("{n}", held.length);
    link.setAttribute("href", page + "#coins=" + held.map(encodeURIComponent).join(","));
  }

  document.addEventListener("click", function (event) {
    var button = event.target.closest ? event.target.closest("button.hold") : null;
    if (!button) { return; }
    var own = button.getAttribute("data-coin");
    held = read();
    var at = held.indexOf(own);
    if (at >= 0) { held.splice(at, 1); } else if (held.length < most) { held.push(own); }
    try { window.localStorage.setItem("held-coins", JSON.stringify(held)); } catch (refused) { /* for this page */ }
    show();
  });
  document.addEventListener("rows-laid", show);
  window.addEventListener("pageshow", function () { held = read(); show(); });
  show();
}());
