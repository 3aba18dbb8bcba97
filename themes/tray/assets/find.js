// Finds coins in the table of all coins: filters, sorts, and keeps the choice in the address.
// The data files before it lay down parts of window.daterunCoins, the rows, and of window.daterunOrders, four ranks for
// each row by which it is sorted. Those of window.daterunTexts are read when words are first looked for. Without it the
// page is a plain table.
(function () {
  "use strict";

  var form = document.querySelector("form.find");
  var rows = [].concat.apply([], window.daterunCoins || []);
  if (!form || !rows.length) { return; }

  var PAGE = 60;
  var ID = 0, NAME = 1, DENOMINATION = 2, DATE = 3, YEAR = 4, MONARCH = 5, METAL = 6, GRADE = 7, LOW = 8;
  var HIGH = 9, PROBLEMS = 10, VARIETIES = 11, PICTURE = 12, TONE = 13;
  var RANKS = { name: 0, monarch: 1, metal: 2, problem: 3 }, NUMBERS = { date: YEAR, grade: LOW };
  var SVG = "http://www.w3.org/2000/svg";

  var table = document.querySelector(".finding");
  var body = table.querySelector("tbody");
  var sum = document.querySelector(".find-sum");
  var more = document.querySelector("button.more");
  var heads = table.querySelectorAll("thead [data-sort]");
  var root = form.getAttribute("data-root");
  var texts = null;
  var orders = {};
  var sorted = { by: "", down: false };
  var found = [];
  var shown = 0;

  function each(list, act) { Array.prototype.forEach.call(list, act); }

  // The place of each coin in an order, reckoned once; the order of the cabinet decides between equals.
  function order(by) {
    if (orders[by]) { return orders[by]; }
    var index = rows.map(function (_, nth) { return nth; });
    if (by in RANKS) {
      var laid = [].concat.apply([], window.daterunOrders || []), at = RANKS[by];
      index.sort(function (a, b) { return laid[a * 4 + at] - laid[b * 4 + at] || a - b; });
    } else if (by) {
      var column = NUMBERS[by];
      index.sort(function (a, b) { return rows[a][column] - rows[b][column] || a - b; });
    }
    var places = new Int32Array(rows.length);
    index.forEach(function (nth, place) { places[nth] = place; });
    orders[by] = places;
    return places;
  }

  // Reads the texts of the coins, each file by an element of its own, for a page in a folder may fetch nothing.
  function readTexts() {
    if (texts) { return; }
    texts = [];
    var addresses = form.getAttribute("data-texts").split(" ").filter(Boolean);
    var waiting = addresses.length;
    form.setAttribute("aria-busy", "true");
    addresses.forEach(function (address) {
      var script = document.createElement("script");
      script.onload = script.onerror = function () {
        waiting -= 1;
        if (waiting) { return; }
        texts = [].concat.apply([], window.daterunTexts || []);
        form.removeAttribute("aria-busy");
        if (chosen("words")) { find(); }
      };
      script.src = address;
      document.head.appendChild(script);
    });
  }

  function counted(number) { return number.toLocaleString(document.documentElement.lang || undefined); }

  function chosen(name) {
    var field = form.elements[name];
    return field ? field.value.trim() : "";
  }

  function numbered(text) {
    var number = Number(text.replace(",", "."));
    return text && !isNaN(number) ? number * 100 : null;
  }

  // Reads the form into one question that every row is asked.
  function question() {
    var words = chosen("words").toLowerCase().split(/\s+/).filter(Boolean);
    if (words.length) { readTexts(); }
    var asked = {
      monarch: chosen("monarch"), denomination: chosen("denomination"), metal: chosen("metal"),
      variety: chosen("variety"), problem: chosen("problem"), from: numbered(chosen("from")),
      to: numbered(chosen("to"))
    };
    return function (nth) {
      var row = rows[nth];
      if (asked.monarch && row[MONARCH] !== asked.monarch) { return false; }
      if (asked.denomination && row[DENOMINATION] !== asked.denomination) { return false; }
      if (asked.metal && row[METAL] !== asked.metal) { return false; }
      if (asked.variety && row[VARIETIES].indexOf(asked.variety) < 0) { return false; }
      if (asked.problem === "none" ? row[PROBLEMS] : asked.problem === "any" ? !row[PROBLEMS] : false) { return false; }
      if (asked.problem && asked.problem !== "none" && asked.problem !== "any"
        && row[PROBLEMS].split(", ").indexOf(asked.problem) < 0) { return false; }
      if ((asked.from !== null || asked.to !== null) && !row[HIGH]) { return false; }
      if (asked.from !== null && row[HIGH] < asked.from) { return false; }
      if (asked.to !== null && row[LOW] > asked.to) { return false; }
      return words.every(function (word) { return (texts[nth] || "").indexOf(word) >= 0; });
    };
  }

  function select() {
    var fits = question();
    var ranks = order(sorted.by);
    found = [];
    for (var nth = 0; nth < rows.length; nth += 1) { if (fits(nth)) { found.push(nth); } }
    found.sort(function (a, b) { return ranks[a] - ranks[b]; });
    if (sorted.down) { found.reverse(); }
  }

  function disc(tone) {
    var svg = document.createElementNS(SVG, "svg");
    var circle = document.createElementNS(SVG, "circle");
    svg.setAttribute("class", "disc tone-" + tone);
    svg.setAttribute("width", "36");
    svg.setAttribute("height", "36");
    svg.setAttribute("aria-hidden", "true");
    circle.setAttribute("cx", "50%");
    circle.setAttribute("cy", "50%");
    circle.setAttribute("r", "48%");
    svg.appendChild(circle);
    return svg;
  }

  function face(row) {
    var picture = row[PICTURE];
    if (!picture) { return disc(row[TONE]); }
    var image = document.createElement("img");
    image.className = picture[1] ? "round" : "square";
    image.width = 36;
    image.height = 36;
    image.alt = "";
    image.loading = "lazy";
    image.decoding = "async";
    image.src = root + picture[0];
    return image;
  }

  function hold(row) {
    var cell = document.createElement("td");
    var button = document.createElement("button");
    cell.className = "holds";
    button.type = "button";
    button.className = "hold";
    button.setAttribute("aria-pressed", "false");
    button.setAttribute("data-coin", row[ID]);
    button.title = table.getAttribute("data-hold");
    button.setAttribute("aria-label", table.getAttribute("data-hold-named").replace("{coin}", row[NAME]));
    cell.appendChild(button);
    return cell;
  }

  function line(row) {
    var tr = document.createElement("tr");
    var head = document.createElement("th");
    var link = document.createElement("a");
    var name = document.createElement("span");
    head.scope = "row";
    link.href = root + "coins/" + row[ID].split("/").map(encodeURIComponent).join("/") + "/index.html";
    link.appendChild(face(row));
    name.textContent = row[NAME];
    link.appendChild(name);
    head.appendChild(link);
    tr.appendChild(head);
    [DATE, MONARCH, METAL, GRADE, PROBLEMS].forEach(function (column) {
      var cell = document.createElement("td");
      cell.textContent = row[column];
      tr.appendChild(cell);
    });
    tr.appendChild(hold(row));
    return tr;
  }

  function lay(upTo) {
    var rest = document.createDocumentFragment();
    for (; shown < Math.min(upTo, found.length); shown += 1) { rest.appendChild(line(rows[found[shown]])); }
    body.appendChild(rest);
    more.hidden = shown >= found.length;
    document.dispatchEvent(new Event("rows-laid"));
  }

  function draw() {
    while (body.firstChild) { body.removeChild(body.firstChild); }
    shown = 0;
    lay(PAGE);
    var waits = form.hasAttribute("aria-busy") && chosen("words");
    var pattern = sum.getAttribute(waits ? "data-waits" : found.length ? "data-some" : "data-none");
    sum.textContent = pattern.replace("{found}", counted(found.length)).replace("{all}", counted(rows.length));
    each(heads, function (head) {
      var own = head.getAttribute("data-sort") === sorted.by;
      head.parentNode.setAttribute("aria-sort", own ? (sorted.down ? "descending" : "ascending") : "none");
    });
  }

  function write() {
    var parts = [];
    each(form.elements, function (field) {
      if (field.name && field.value.trim()) {
        parts.push(field.name + "=" + encodeURIComponent(field.value.trim()));
      }
    });
    if (sorted.by) { parts.push("by=" + sorted.by + (sorted.down ? "-down" : "")); }
    var address = window.location.href.split("#")[0] + (parts.length ? "#" + parts.join("&") : "");
    if (address !== window.location.href) { window.history.replaceState(null, "", address); }
  }

  function read() {
    var given = {};
    window.location.hash.slice(1).split("&").forEach(function (part) {
      var at = part.indexOf("=");
      if (at < 1) { return; }
      try { given[part.slice(0, at)] = decodeURIComponent(part.slice(at + 1)); } catch (broken) { /* left out */ }
    });
    each(form.elements, function (field) { if (field.name) { field.value = given[field.name] || ""; } });
    var by = (given.by || "").replace(/-down$/, "");
    sorted = { by: by in RANKS || by in NUMBERS ? by : "", down: /-down$/.test(given.by || "") };
  }

  function find() {
    select();
    draw();
  }

  form.addEventListener("input", function () { find(); write(); });
  form.elements.words.addEventListener("focus", readTexts);
  form.addEventListener("submit", function (event) { event.preventDefault(); });
  form.addEventListener("reset", function () {
    window.setTimeout(function () { sorted = { by: "", down: false }; find(); write(); });
  });
  each(heads, function (head) {
    head.disabled = false;
    head.addEventListener("click", function () {
      var by = head.getAttribute("data-sort");
      if (sorted.by !== by) { sorted = { by: by, down: false }; }
      else if (!sorted.down) { sorted.down = true; } else { sorted = { by: "", down: false }; }
      find();
      write();
    });
  });
  more.addEventListener("click", function () {
    var next = shown;
    lay(shown + PAGE);
    body.children[next].querySelector("a").focus();
  });
  window.addEventListener("hashchange", function () { read(); find(); });

  read();
  select();
  if (window.location.hash.indexOf("=") < 0 && body.children.length === rows.length) {
    shown = rows.length;  // all stand there already
  } else {
    draw();
  }
}());
