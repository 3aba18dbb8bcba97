// Counts every grid and figure of a page again at a chosen grade, which the address keeps. Also takes regions that
// do not scroll out of the keyboard's way, and brings the coin of a page into sight in its run. A page is whole
// without it.
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
      say(row.querySelector("td.tally"), pattern, filled, slots, least);
      held += filled;
      all += slots;
    });
    grid.querySelector(".sum").textContent = least ? word(pattern, held, all) : "";
    each(grid.querySelectorAll("caption [data-counting]"), function (caption) {
      say(caption, caption.getAttribute("data-counting"), held, all, least);
    });
    return { held: held, all: all };
  }

  function word(pattern, filled, slots) {
    return pattern.replace("{filled}", filled.toLocaleString(language)).replace("{slots}", slots.toLocaleString(language));
  }

  // Words a figure anew, or as it was built where every grade counts.
  function say(figure, pattern, filled, slots, least) {
    if (!figure.hasAttribute("data-as-built")) { figure.setAttribute("data-as-built", figure.textContent); }
    figure.textContent = least && slots ? word(pattern, filled, slots) : figure.getAttribute("data-as-built");
  }

  function recountAll(least) {
    var held = 0;
    var all = 0;
    var pattern = grids[0].getAttribute("data-tally");
    each(grids, function (grid) {
      var sum = recount(grid, least);
      held += sum.held;
      all += sum.all;
    });
    each(document.querySelectorAll(".lead[data-counting]"), function (lead) {
      say(lead, lead.getAttribute("data-counting"), held, all, least);
    });
    each(document.querySelectorAll(".tally[data-ranks]"), function (tally) {
      var ranks = tally.getAttribute("data-ranks").split(" ").filter(Boolean);
      var filled = ranks.filter(function (rank) { return Number(rank) >= least; }).length;
      say(tally, pattern, filled, Number(tally.getAttribute("data-slots")), least);
    });
  }

  var language = document.documentElement.lang || undefined;
  var grids = Array.prototype.filter.call(document.querySelectorAll(".grid"), function (grid) {
    return grid.querySelector(".count");
  });

  function kept() {
    var found = /[#&]count=(\d+)/.exec(window.location.hash);
    return found ? Number(found[1]) * 100 : 0;
  }

  // Shows one step in every control of the page, and counts the whole page by it.
  function show(least) {
    each(grids, function (grid) {
      var range = grid.querySelector(".count input");
      each(grid.querySelectorAll(".step"), function (step, nth) {
        var chosen = Number(step.getAttribute("data-least")) === least;
        step.hidden = !chosen;
        if (chosen) {
          range.value = String(nth);
          range.setAttribute("aria-valuetext", step.textContent);
        }
      });
    });
    recountAll(least);
  }

  function keep(least) {
    var address = window.location.href.split("#")[0];
    if (least || kept()) { window.history.replaceState(null, "", address + (least ? "#count=" + least / 100 : "")); }
  }

  function steps() {
    return Array.prototype.map.call(grids[0].querySelectorAll(".step"), function (step) {
      return Number(step.getAttribute("data-least"));
    });
  }

  if (grids.length) {
    each(grids, function (grid) {
      grid.querySelector(".count input").addEventListener("input", function (event) {
        var least = steps()[Number(event.target.value)];
        show(least);
        keep(least);
      });
    });
    window.addEventListener("hashchange", function () { show(steps().indexOf(kept()) < 0 ? 0 : kept()); });
    show(steps().indexOf(kept()) < 0 ? 0 : kept());
  }

  function fit() {
    each(document.querySelectorAll(".region"), function (region) {
      var scrolls = region.scrollWidth > region.clientWidth;
      var before = region.previousElementSibling;
      if (scrolls) { region.setAttribute("tabindex", "0"); } else { region.removeAttribute("tabindex"); }
      if (before && before.className === "hint") { before.hidden = !scrolls; }
    });
    each(document.querySelectorAll(".prose table"), function (table) {
      if (table.scrollWidth > table.clientWidth) { table.setAttribute("tabindex", "0"); }
      else { table.removeAttribute("tabindex"); }
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
