// Shows coins at their actual size on a screen that has been measured with a bank card, and lays a ruler beside them.
// A bank card is 85.60 mm wide and 53.98 mm high (ISO/IEC 7810:2019, format ID-1). The measure is remembered.
(function () {
  "use strict";

  var CARD = { width: 85.6, height: 53.98 };
  var USUAL = 96 / 25.4;  // pixels of CSS to a millimetre, where a screen says nothing else
  var SVG = "http://www.w3.org/2000/svg";

  var box = document.querySelector("details.ruler");
  if (!box) { return; }
  var outline = box.querySelector(".outline");
  var range = box.querySelector("input");
  var scale = box.querySelector(".scale");
  var coins = document.querySelectorAll(".true .faces svg");
  var said = document.querySelector(".true .measured-screen");
  var measures = Array.prototype.map.call(coins, function (coin) { return parseFloat(coin.getAttribute("width")); });

  function recall() {
    try { return Number(window.localStorage.getItem("pixels-per-mm")) || 0; } catch (refused) { return 0; }
  }

  function remember(pixels) {
    try { window.localStorage.setItem("pixels-per-mm", String(pixels)); } catch (refused) { /* for this page */ }
  }

  // On a phone the card is wider than the screen, so its short edge is laid on.
  function edge() { return box.clientWidth < CARD.width * 6 ? CARD.height : CARD.width; }

  function lay(pixels) {
    var millimetres = Math.max(10, Math.min(100, Math.floor(box.clientWidth / pixels) - 1));
    var path = document.createElementNS(SVG, "path");
    var marks = "";
    for (var mm = 0; mm <= millimetres; mm += 1) {
      marks += "M" + (mm * pixels + 0.5).toFixed(2) + " 0v" + (mm % 10 ? mm % 5 ? 6 : 9 : 14);
    }
    path.setAttribute("d", marks);
    while (scale.firstChild) { scale.removeChild(scale.firstChild); }
    scale.setAttribute("width", String(Math.ceil(millimetres * pixels) + 1));
    scale.appendChild(path);
    for (var ten = 10; ten <= millimetres; ten += 10) {
      var text = document.createElementNS(SVG, "text");
      text.setAttribute("x", String(ten * pixels));
      text.setAttribute("y", "27");
      text.textContent = String(ten);
      scale.appendChild(text);
    }
  }

  function show(pixels) {
    Array.prototype.forEach.call(coins, function (coin, nth) {
      coin.setAttribute("width", String(measures[nth] * pixels));
      coin.setAttribute("height", String(measures[nth] * pixels));
    });
    outline.style.width = edge() * pixels + "px";
    lay(pixels);
  }

  var known = recall();
  range.value = String(known || USUAL);
  if (known) {
    said.hidden = false;
    show(known);
  }
  box.addEventListener("toggle", function () { if (box.open) { show(Number(range.value)); } });
  range.addEventListener("input", function () {
    show(Number(range.value));
    remember(Number(range.value));
    said.hidden = false;
  });
}());
