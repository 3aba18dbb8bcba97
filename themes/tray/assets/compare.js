// Lays held coins side by side, the same side up and at their true relative size, with their records in a table. The
// address keeps them. Of the files of data only those are read that hold a record shown, as parts of
// window.daterunRecords, and when a coin is looked for by its name, those of window.daterunCoins.
(function () {
  "use strict";

  var box = document.querySelector(".comparison");
  if (!box) { return; }

  var ID = 0, NAME = 1, OBVERSE = 15, REVERSE = 16, TONE = 17, DIAMETER = 18;
  var SVG = "http://www.w3.org/2000/svg";
  var most = Number(box.getAttribute("data-most"));
  var root = box.getAttribute("data-root");
  var bench = box.querySelector(".bench");
  var table = box.querySelector("table");
  var input = box.querySelector("input[type=search]");
  var offers = box.querySelector(".offers");
  var sideBoxes = box.querySelectorAll("input[name=side]");
  var empty = box.querySelector(".empty");
  var labels = Array.prototype.map.call(table.querySelectorAll("tbody tr"), function (line) {
    return { column: Number(line.getAttribute("data-column")), line: line };
  });
  var parts = Array.prototype.map.call(box.querySelectorAll(".records li"), function (part) {
    return { first: part.getAttribute("data-first"), address: part.getAttribute("data-address") };
  });
  var byId = {};
  var asked = {};
  var names = null;

  var held = [];
  var wanted = [];
  var side = "obverse";

  function make(kind, text, name) {
    var element = document.createElement(kind);
    if (text) { element.textContent = text; }
    if (name) { element.className = name; }
    return element;
  }

  function recall() {
    try { return JSON.parse(window.localStorage.getItem("held-coins") || "[]"); } catch (refused) { return []; }
  }

  // Reads files of data, each by an element of its own, for a page in a folder may fetch nothing.
  function readFiles(addresses, then) {
    var waiting = addresses.length;
    if (!waiting) { then(); }
    addresses.forEach(function (address) {
      var script = document.createElement("script");
      script.onload = script.onerror = function () {
        waiting -= 1;
        if (!waiting) { then(); }
      };
      script.src = address;
      document.head.appendChild(script);
    });
  }

  function partOf(id) {
    var nth = parts.length - 1;
    while (nth > 0 && parts[nth].first > id) { nth -= 1; }
    return nth;
  }

  // Reads the records of coins, then acts.
  function readRecords(ids, then) {
    var missing = ids.map(partOf).filter(function (nth, at, all) {
      return nth >= 0 && !asked[nth] && all.indexOf(nth) === at;
    });
    readFiles(missing.map(function (nth) { return parts[nth].address; }), function () {
      missing.forEach(function (nth) {
        asked[nth] = true;
        ((window.daterunRecords || [])[nth] || []).forEach(function (row) { byId[row[ID]] = row; });
      });
      then();
    });
  }

  function known(ids) {
    return ids.filter(function (id, nth) { return byId[id] && ids.indexOf(id) === nth; }).slice(0, most);
  }

  function read() {
    var given = {};
    window.location.hash.slice(1).split("&").forEach(function (part) {
      var at = part.indexOf("=");
      if (at > 0) { given[part.slice(0, at)] = part.slice(at + 1); }
    });
    wanted = "coins" in given ? given.coins.split(",").map(function (id) {
      try { return decodeURIComponent(id); } catch (broken) { return ""; }
    }) : recall();
    side = given.side === "reverse" ? "reverse" : "obverse";
  }

  function keep() {
    var hash = "#coins=" + held.map(encodeURIComponent).join(",") + (side === "reverse" ? "&side=reverse" : "");
    window.history.replaceState(null, "", window.location.href.split("#")[0] + hash);
    try { window.localStorage.setItem("held-coins", JSON.stringify(held)); } catch (refused) { /* address keeps it */ }
  }

  // A coin without a photo, drawn as an outline like the drawings of its page.
  function ring(tone) {
    var svg = document.createElementNS(SVG, "svg");
    svg.setAttribute("viewBox", "0 0 200 200");
    svg.setAttribute("class", "drawing tone-" + tone);
    svg.setAttribute("aria-hidden", "true");
    [["flan", 98], ["beads", 93], ["inner", 64]].forEach(function (one) {
      var circle = document.createElementNS(SVG, "circle");
      [["class", one[0]], ["cx", 100], ["cy", 100], ["r", one[1]]].forEach(function (pair) {
        circle.setAttribute(pair[0], pair[1]);
      });
      svg.appendChild(circle);
    });
    return svg;
  }

  function face(row, largest) {
    var figure = make("figure");
    var picture = row[side === "reverse" ? REVERSE : OBVERSE];
    var shown;
    if (picture) {
      shown = make("img");
      shown.src = root + picture[0];
      shown.alt = row[NAME] + ", " + box.getAttribute("data-" + side);
      shown.className = picture[1] ? "round" : "square";
    } else {
      shown = ring(row[TONE]);
    }
    shown.style.width = 100 * (row[DIAMETER] || largest) / largest + "%";
    figure.appendChild(shown);
    return figure;
  }

  function place(row, largest) {
    var item = make("li");
    var words = make("p");
    var link = make("a", row[NAME]);
    var drop = make("button", box.getAttribute("data-drop"), "tool");
    link.href = root + "coins/" + row[ID].split("/").map(encodeURIComponent).join("/") + "/index.html";
    drop.type = "button";
    drop.setAttribute("aria-label", box.getAttribute("data-drop") + ": " + row[NAME]);
    drop.addEventListener("click", function () {
      held.splice(held.indexOf(row[ID]), 1);
      keep();
      draw();
      input.focus();
    });
    words.appendChild(link);
    item.appendChild(face(row, largest));
    item.appendChild(words);
    item.appendChild(drop);
    return item;
  }

  function said(value) { return Array.isArray(value) ? value.join(", ") : String(value || ""); }

  function draw() {
    var coins = held.map(function (id) { return byId[id]; });
    var largest = Math.max.apply(null, coins.map(function (row) { return row[DIAMETER]; }).concat(1));
    while (bench.firstChild) { bench.removeChild(bench.firstChild); }
    coins.forEach(function (row) { bench.appendChild(place(row, largest)); });
    bench.setAttribute("data-many", String(coins.length));
    empty.hidden = coins.length > 0;
    table.parentNode.parentNode.hidden = !coins.length;
    input.disabled = coins.length >= most;
    Array.prototype.forEach.call(sideBoxes, function (choice) { choice.checked = choice.value === side; });

    var head = table.querySelector("thead tr");
    while (head.children.length > 1) { head.removeChild(head.lastChild); }
    coins.forEach(function (row) {
      var cell = make("th", row[NAME]);
      cell.scope = "col";
      head.appendChild(cell);
    });
    labels.forEach(function (label) {
      var values = coins.map(function (row) { return said(row[label.column]); });
      var differs = values.some(function (value) { return value !== values[0]; });
      while (label.line.children.length > 1) { label.line.removeChild(label.line.lastChild); }
      values.forEach(function (value) { label.line.appendChild(make("td", value)); });
      label.line.className = differs ? "differs" : "";
      label.line.querySelector(".sign").hidden = !differs;
      label.line.hidden = !values.some(Boolean);
    });
  }

  function readNames() {
    if (names) { return; }
    names = [];
    readFiles(box.getAttribute("data-coins").split(" ").filter(Boolean), function () {
      names = [].concat.apply([], window.daterunCoins || []);
      offer();
    });
  }

  function add(id) {
    readRecords([id], function () {
      held = known(held.concat(id));
      input.value = "";
      offer();
      keep();
      draw();
      (input.disabled ? bench.querySelector("button") : input).focus();
    });
  }

  function offer() {
    var words = input.value.toLowerCase().split(/\s+/).filter(Boolean);
    while (offers.firstChild) { offers.removeChild(offers.firstChild); }
    if (!words.length) { return; }
    readNames();
    for (var nth = 0, many = 0; nth < names.length && many < 8; nth += 1) {
      var name = names[nth][NAME].toLowerCase();
      if (held.indexOf(names[nth][ID]) < 0 && words.every(function (word) { return name.indexOf(word) >= 0; })) {
        offers.appendChild(offerOf(names[nth]));
        many += 1;
      }
    }
  }

  function offerOf(row) {
    var item = make("li");
    var button = make("button", row[NAME], "tool");
    button.type = "button";
    button.addEventListener("click", function () { add(row[ID]); });
    item.appendChild(button);
    return item;
  }

  function open() {
    read();
    readRecords(wanted.slice(0, most * 4), function () {
      held = known(wanted);
      if (held.length) { keep(); }
      draw();
    });
  }

  input.addEventListener("input", offer);
  input.addEventListener("focus", readNames);
  box.querySelector("form").addEventListener("submit", function (event) {
    var first = offers.querySelector("button");
    event.preventDefault();
    if (first) { first.click(); }
  });
  Array.prototype.forEach.call(sideBoxes, function (choice) {
    choice.addEventListener("change", function () {
      side = choice.value;
      keep();
      draw();
    });
  });
  window.addEventListener("hashchange", open);

  open();
}());
