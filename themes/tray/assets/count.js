// Counts every grid and figure of a page again at a chosen grade, which the address keeps. What a figure then says is
// worded beforehand and stands beside it; only the slots of a grid are counted here, by the ranks of their coins.
// A page is whole without it.
(function () {
  "use strict";

  function each(list, act) { Array.prototype.forEach.call(list, act); }
  function all(selector, within) { return (within || document).querySelectorAll(selector); }

  var controls = all(".count");
  if (!controls.length) { return; }
  var language = document.documentElement.lang || undefined;
  var pattern = controls[0].getAttribute("data-tally");
  var short = controls[0].getAttribute("data-short");
  var steps = Array.prototype.map.call(all(".step", controls[0]), function (step) {
    return Number(step.getAttribute("data-least"));
  });

  function word(said, filled, slots) {
    return said.replace("{filled}", filled.toLocaleString(language)).replace("{slots}", slots.toLocaleString(language));
  }

  // Words a figure anew, or as it was built where every grade counts.
  function say(figure, said, filled, slots, least) {
    if (!figure.hasAttribute("data-as-built")) { figure.setAttribute("data-as-built", figure.textContent); }
    figure.textContent = least && slots ? word(said, filled, slots) : figure.getAttribute("data-as-built");
  }

  // A slot counts while its coin is of the grade or better; what the aim itself finds short stays short.
  function mark(slot, least) {
    var falls = Number(slot.getAttribute("data-rank")) < least;
    var note = slot.querySelector(".falls");
    slot.classList.toggle("below", falls);
    if (falls && !note) {
      note = document.createElement("span");
      note.className = slot.classList.contains("coin") ? "mark falls" : "unseen falls";
      note.textContent = slot.classList.contains("coin") ? short : ", " + short;
      (slot.querySelector(".words") || slot).appendChild(note);
    } else if (!falls && note) {
      note.parentNode.removeChild(note);
    }
    return falls;
  }

  function recountGrid(grid, least) {
    var sum = { held: 0, all: 0 };
    each(all("tbody tr", grid), function (row) {
      var filled = Number(row.getAttribute("data-filled"));
      var slots = Number(row.getAttribute("data-slots"));
      each(all(".filled[data-rank]", row), function (slot) { if (mark(slot, least)) { filled -= 1; } });
      say(row.querySelector("td.tally"), pattern, filled, slots, least);
      sum.held += filled;
      sum.all += slots;
    });
    each(all(".sum", grid), function (said) { said.textContent = least ? word(pattern, sum.held, sum.all) : ""; });
    each(all("caption [data-counting]", grid), function (caption) {
      say(caption, caption.getAttribute("data-counting"), sum.held, sum.all, least);
    });
    return sum;
  }

  // Each line of what a figure says again is a step, the words from that step on, and where they lead.
  function parts(figure) {
    return figure.getAttribute("data-again").split("\n").map(function (line) { return line.split("\t"); });
  }

  function sayAgain(figure, least) {
    var isBar = figure.tagName.toLowerCase() === "rect";
    if (!figure.hasAttribute("data-as-built")) {
      figure.setAttribute("data-as-built", isBar ? figure.getAttribute("width") : figure.textContent);
      if (figure.hasAttribute("href")) { figure.setAttribute("data-way", figure.getAttribute("href")); }
    }
    var said = figure.getAttribute("data-as-built");
    var way = figure.getAttribute("data-way");
    each(parts(figure), function (line) {
      if (Number(line[0]) * 100 <= least) { said = line[1]; way = line[2] || way; }
    });
    if (isBar) { figure.setAttribute("width", said); } else { figure.textContent = said; }
    if (way) { figure.setAttribute("href", way); }
  }

  function chooseAgain(list, least) {
    var chosen = null;
    each(list.children, function (one) {
      if (!one.hasAttribute("data-from")) { return; }
      if (Number(one.getAttribute("data-from")) * 100 <= least) { chosen = one; }
      one.hidden = true;
    });
    chosen.hidden = false;
  }

  function recount(least) {
    var held = 0;
    var slots = 0;
    each(all(".grid"), function (grid) {
      var sum = recountGrid(grid, least);
      held += sum.held;
      slots += sum.all;
    });
    each(all(".lead[data-counting]"), function (lead) {
      say(lead, lead.getAttribute("data-counting"), held, slots, least);
    });
    each(all(".tally[data-ranks]"), function (tally) {
      var ranks = tally.getAttribute("data-ranks").split(" ").filter(Boolean);
      var filled = ranks.filter(function (rank) { return Number(rank) >= least; }).length;
      say(tally, pattern, filled, Number(tally.getAttribute("data-slots")), least);
    });
    each(all(".falling"), function (sign) { sign.hidden = !least; });
    each(all(".coin[data-rank]"), function (coin) { mark(coin, least); });
    each(all(".plot [data-rank]"), function (dot) {
      dot.classList.toggle("falls", Number(dot.getAttribute("data-rank")) < least);
    });
    each(all("[data-again]"), function (figure) { sayAgain(figure, least); });
    each(all(".by-step"), function (list) { chooseAgain(list, least); });
  }

  function kept() {
    var found = /[#&]count=(\d+)/.exec(window.location.hash);
    var least = found ? Number(found[1]) * 100 : 0;
    return steps.indexOf(least) < 0 ? 0 : least;
  }

  function keep(least) {
    var address = window.location.href.split("#")[0];
    if (least || kept()) { window.history.replaceState(null, "", address + (least ? "#count=" + least / 100 : "")); }
  }

  // Shows one step in every control of the page, and counts the whole page by it.
  function show(least) {
    each(controls, function (control) {
      var range = control.querySelector("input");
      each(all(".step", control), function (step, nth) {
        var chosen = Number(step.getAttribute("data-least")) === least;
        step.hidden = !chosen;
        if (chosen) {
          range.value = String(nth);
          range.setAttribute("aria-valuetext", step.textContent);
        }
      });
    });
    recount(least);
  }

  each(controls, function (control) {
    control.querySelector("input").addEventListener("input", function (event) {
      var least = steps[Number(event.target.value)];
      show(least);
      keep(least);
    });
  });
  window.addEventListener("hashchange", function () { show(kept()); });
  show(kept());
}());
