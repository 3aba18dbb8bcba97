// Counts a grid again at a chosen grade. Also takes regions that do not scroll out of the keyboard's way, and
// brings the coin of a page into sight in its run. A page is whole without it.
(function () {
  "use strict";

  function each(list, act) { Array.prototype.forEach.call(list, act); }

  // A slot counts while its coin is of the grade or better; what the aim itself finds short stays short.
  function recount(grid, least) {
    var held = 0;
    var all = 0;
    var pattern = grid.getAttribute("data-tally");
    each(grid.querySelectorAll("tbody tr"), function (row) {
      var filled = Number(row.getAttribute("data-filled"));
      var slots = Number(row.getAttribute("data-slots"));
      var tally = row.querySelector("td.tally");
      each(row.querySelectorAll(".filled[data-rank]"), function (slot) {
        var falls = Number(slot.getAttribute("data-rank")) < least;
        var note = slot.querySelector(".falls");
        slot.classList.toggle("below", falls);
        if (falls) { filled -= 1; }
        if (falls && !note) {
          note = document.createElement("span");
          note.className = "unseen falls";
          note.textContent = ", " + grid.getAttribute("data-short");
          slot.appendChild(note);
        } else if (!falls && note) {
          slot.removeChild(note);
        }
      });
      if (!tally.hasAttribute("data-as-built")) { tally.setAttribute("data-as-built", tally.textContent); }
      tally.textContent = least ? pattern.replace("{filled}", filled).replace("{slots}", slots)
        : tally.getAttribute("data-as-built");
      held += filled;
      all += slots;
    });
    return least ? pattern.replace("{filled}", held).replace("{slots}", all) : "";
  }

  each(document.querySelectorAll(".grid"), function (grid) {
    var box = grid.querySelector(".count");
    var range = box.querySelector("input");
    var steps = box.querySelectorAll(".step");
    if (!grid.querySelector(".filled[data-rank]")) { return; }
    function show() {
      var chosen = steps[Number(range.value)];
      each(steps, function (step) { step.hidden = step !== chosen; });
      range.setAttribute("aria-valuetext", chosen.textContent);
      box.querySelector(".sum").textContent = recount(grid, Number(chosen.getAttribute("data-least")));
    }
    range.addEventListener("input", show);
    box.hidden = false;
    show();
  });

  function fit() {
    each(document.querySelectorAll(".region"), function (region) {
      var scrolls = region.scrollWidth > region.clientWidth;
      var before = region.previousElementSibling;
      if (scrolls) { region.setAttribute("tabindex", "0"); } else { region.removeAttribute("tabindex"); }
      if (before && before.className === "hint") { before.hidden = !scrolls; }
    });
  }
  window.addEventListener("resize", fit);
  window.addEventListener("load", fit);
  fit();

  each(document.querySelectorAll(".run .current"), function (place) {
    var strip = place.parentNode;
    strip.scrollLeft = place.offsetLeft - (strip.clientWidth - place.offsetWidth) / 2;
  });
}());
