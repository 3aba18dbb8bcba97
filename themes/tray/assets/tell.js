// Names, under a grid, the cell at which one points: by the mouse, by the keyboard, or by a first touch, after which a
// second follows the link. The arrow keys lead from cell to cell. A grid is whole without it.
(function () {
  "use strict";

  function each(list, act) { Array.prototype.forEach.call(list, act); }

  each(document.querySelectorAll(".grid"), function (grid) {
    var line = grid.querySelector(".told");
    var region = grid.querySelector(".region");
    var told = null;
    var touched = false;
    if (!line || !region) { return; }

    // The words of a cell stand in its title, which nothing but a mouse would show; here all see them alike.
    each(region.querySelectorAll("[title]"), function (cell) {
      cell.setAttribute("data-name", cell.getAttribute("title"));
      cell.removeAttribute("title");
    });

    function cellOf(target) { return target.closest ? target.closest("[data-name]") : null; }

    function tell(cell) {
      if (told) { told.classList.remove("told-of"); }
      told = cell;
      line.textContent = "";
      if (!cell) { return; }
      var falls = cell.querySelector(".falls");
      var name = cell.getAttribute("data-name") + (falls ? falls.textContent : "");
      if (touched && cell.href) {
        var way = document.createElement("a");
        way.href = cell.href;
        way.tabIndex = -1;
        way.className = "way";
        way.textContent = name + " →";
        line.appendChild(way);
        cell.classList.add("told-of");
      } else {
        line.textContent = name;
      }
    }

    region.addEventListener("pointerover", function (event) {
      if (event.pointerType === "mouse" && cellOf(event.target)) { touched = false; tell(cellOf(event.target)); }
    });
    region.addEventListener("pointerleave", function (event) {
      if (event.pointerType === "mouse") { tell(null); }
    });
    region.addEventListener("pointerdown", function (event) { touched = event.pointerType === "touch"; });
    region.addEventListener("focusin", function (event) {
      if (!touched) { tell(cellOf(event.target)); }
    });
    region.addEventListener("focusout", function () {
      if (!touched) { tell(null); }
    });
    region.addEventListener("click", function (event) {
      var cell = cellOf(event.target);
      if (!touched || !cell || cell === told) { return; }
      event.preventDefault();
      tell(cell);
    });

    // The nearest link that way: along the row, or in the rows above and below by the same column.
    function beside(cell, aside, down) {
      var box = cell.closest("td");
      var row = box.parentNode;
      var column = box.cellIndex;
      for (;;) {
        if (down) { row = down > 0 ? row.nextElementSibling : row.previousElementSibling; }
        column += aside;
        var next = row && row.cells[column];
        if (!next) { return null; }
        var link = next.querySelector("a.slot");
        if (link) { return link; }
      }
    }

    var WAYS = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
    region.addEventListener("keydown", function (event) {
      var way = WAYS[event.key];
      var cell = event.target.closest("td a.slot");
      if (!way || !cell || event.ctrlKey || event.metaKey || event.altKey || event.shiftKey) { return; }
      var next = beside(cell, way[0], way[1]);
      event.preventDefault();
      event.stopPropagation();
      if (next) { next.focus(); }
    });
  });
}());
