// Leafs through pages that have one before and one after: by the arrow keys, and by a swipe. On a small screen it
// turns the coin over. Without it the links at the foot of the page lead on, and both sides stand there.
(function () {
  "use strict";

  var FAR = 70;  // pixels that a finger must go sideways

  function follow(rel) {
    var link = document.querySelector("main a[rel=" + rel + "]");
    if (link) { link.click(); }
  }

  function isTaken(target) {
    if (document.querySelector("dialog[open]")) { return true; }
    var within = target.closest ? target.closest("input, select, textarea, details, .region, .run ol") : null;
    return !!within && (within.tagName !== "DIV" && within.tagName !== "OL" || within.scrollWidth > within.clientWidth);
  }

  document.addEventListener("keydown", function (event) {
    if (event.ctrlKey || event.metaKey || event.altKey || event.shiftKey || isTaken(event.target)) { return; }
    if (event.key === "ArrowLeft") { follow("prev"); } else if (event.key === "ArrowRight") { follow("next"); }
  });

  var start = null;
  document.addEventListener("touchstart", function (event) {
    var touch = event.touches[0];
    start = event.touches.length === 1 && !isTaken(event.target) ? { x: touch.clientX, y: touch.clientY } : null;
  }, { passive: true });
  document.addEventListener("touchend", function (event) {
    if (!start) { return; }
    var x = event.changedTouches[0].clientX - start.x;
    var y = event.changedTouches[0].clientY - start.y;
    start = null;
    if (Math.abs(x) > FAR && Math.abs(x) > 2 * Math.abs(y)) { follow(x > 0 ? "prev" : "next"); }
  }, { passive: true });

  var sides = document.querySelector(".sides[data-shown]");
  var button = document.querySelector("button.turn");
  if (!sides || !button) { return; }
  button.addEventListener("click", function () {
    var many = sides.querySelectorAll(".side").length;
    sides.setAttribute("data-shown", String((Number(sides.getAttribute("data-shown")) + 1) % many));
  });
}());
