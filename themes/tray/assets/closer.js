// A closer look at a side of a coin, in the picture that the page links to: by wheel, pinch, dragging and keyboard.
// Without it the link leads to the picture itself.
(function () {
  "use strict";

  var dialog = document.querySelector("dialog.closer-look");
  var links = Array.prototype.slice.call(document.querySelectorAll("a.closer"));
  if (!dialog || !links.length || !dialog.showModal) { return; }

  var MOST = 4;  // pixels of the screen for one of the picture
  var stage = dialog.querySelector(".stage");
  var name = dialog.querySelector(".name");
  var image = null;
  var shown = 0;
  var view = { x: 0, y: 0, scale: 1 };
  var touches = {};
  var before = null;

  function most() { return Math.max(2, MOST * (image.naturalWidth || stage.clientWidth) / fitted()); }
  function fitted() { return Math.min(stage.clientWidth, stage.clientHeight); }

  function within(place, room, size) {
    var edge = (room - size) / 2;
    return edge >= 0 ? edge : Math.min(0, Math.max(room - size, place));
  }

  function draw() {
    var size = fitted() * view.scale;
    view.x = within(view.x, stage.clientWidth, size);
    view.y = within(view.y, stage.clientHeight, size);
    image.style.transform = "translate(" + view.x + "px," + view.y + "px) scale(" + view.scale + ")";
    image.width = image.height = fitted();
  }

  // The point of the picture that lies at x, y of the stage stays there.
  function zoom(factor, x, y) {
    var scale = Math.min(most(), Math.max(1, view.scale * factor));
    var grown = scale / view.scale;
    view = { x: x - (x - view.x) * grown, y: y - (y - view.y) * grown, scale: scale };
    draw();
  }

  function zoomAtMiddle(factor) { zoom(factor, stage.clientWidth / 2, stage.clientHeight / 2); }

  function whole() {
    view = { x: 0, y: 0, scale: 1 };
    draw();
  }

  function show(nth) {
    var link = links[nth];
    var small = link.querySelector("img");
    shown = nth;
    if (image) { stage.removeChild(image); }
    image = document.createElement("img");
    image.alt = small.alt;
    image.className = small.className;
    image.draggable = false;
    image.src = link.href;
    stage.appendChild(image);
    name.textContent = small.alt;
    whole();
  }

  function turn() { show((shown + 1) % links.length); }

  var deeds = {
    larger: function () { zoomAtMiddle(1.5); },
    smaller: function () { zoomAtMiddle(1 / 1.5); },
    whole: whole,
    turn: turn,
    close: function () { dialog.close(); }
  };

  function pan(x, y) {
    view.x += x;
    view.y += y;
    draw();
  }

  var keys = {
    "+": deeds.larger, "=": deeds.larger, "-": deeds.smaller, "0": whole, "t": turn,
    ArrowLeft: function () { pan(60, 0); }, ArrowRight: function () { pan(-60, 0); },
    ArrowUp: function () { pan(0, 60); }, ArrowDown: function () { pan(0, -60); }
  };

  links.forEach(function (link, nth) {
    link.addEventListener("click", function (event) {
      if (event.ctrlKey || event.metaKey || event.shiftKey || event.button) { return; }
      event.preventDefault();
      dialog.showModal();
      show(nth);
      stage.focus();
    });
  });

  Array.prototype.forEach.call(dialog.querySelectorAll("[data-do]"), function (button) {
    var deed = button.getAttribute("data-do");
    if (deed === "turn") { button.hidden = links.length < 2; }
    button.addEventListener("click", deeds[deed]);
  });

  dialog.addEventListener("keydown", function (event) {
    if (event.ctrlKey || event.metaKey || event.altKey || !keys[event.key]) { return; }
    event.preventDefault();
    keys[event.key]();
  });

  dialog.addEventListener("close", function () { links[shown].focus(); });

  stage.addEventListener("wheel", function (event) {
    var box = stage.getBoundingClientRect();
    event.preventDefault();
    zoom(Math.exp(-event.deltaY * (event.deltaMode ? 0.05 : 0.002)), event.clientX - box.left, event.clientY - box.top);
  }, { passive: false });

  stage.addEventListener("dblclick", function (event) {
    var box = stage.getBoundingClientRect();
    if (view.scale > 1.01) { whole(); } else { zoom(2.5, event.clientX - box.left, event.clientY - box.top); }
  });

  // Where the fingers are: their middle, and how far apart two of them are.
  function hold() {
    var box = stage.getBoundingClientRect();
    var points = Object.keys(touches).map(function (id) { return touches[id]; });
    var x = 0, y = 0;
    points.forEach(function (point) { x += point.x / points.length; y += point.y / points.length; });
    var apart = points.length > 1 ? Math.hypot(points[0].x - points[1].x, points[0].y - points[1].y) : 0;
    return { x: x - box.left, y: y - box.top, apart: apart, fingers: points.length };
  }

  stage.addEventListener("pointerdown", function (event) {
    touches[event.pointerId] = { x: event.clientX, y: event.clientY };
    stage.setPointerCapture(event.pointerId);
    before = hold();
  });

  stage.addEventListener("pointermove", function (event) {
    if (!touches[event.pointerId]) { return; }
    touches[event.pointerId] = { x: event.clientX, y: event.clientY };
    var now = hold();
    view.x += now.x - before.x;
    view.y += now.y - before.y;
    if (now.apart && before.apart) { zoom(now.apart / before.apart, now.x, now.y); } else { draw(); }
    before = now;
  });

  ["pointerup", "pointercancel"].forEach(function (kind) {
    stage.addEventListener(kind, function (event) {
      delete touches[event.pointerId];
      before = hold();
    });
  });

  window.addEventListener("resize", function () { if (dialog.open) { draw(); } });
}());
