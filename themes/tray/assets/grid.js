// Takes regions that do not scroll out of the keyboard's way, and brings the coin of a page into sight in its run.
// A page is whole without it.
(function () {
  "use strict";

  function each(list, act) { Array.prototype.forEach.call(list, act); }

  function fit(region) {
    var scrolls = region.scrollWidth > region.clientWidth;
    var before = region.previousElementSibling;
    if (scrolls) { region.setAttribute("tabindex", "0"); } else { region.removeAttribute("tabindex"); }
    if (before && before.className === "hint") { before.hidden = !scrolls; }
  }

  var regions = document.querySelectorAll(".region, .plot .drawn, .prose table, .run ol");
  function fitAll() { each(regions, fit); }

  // Of a region both its own width and that of what is in it can change, as when the letters come.
  if (window.ResizeObserver) {
    var watch = new window.ResizeObserver(fitAll);
    each(regions, function (region) {
      watch.observe(region);
      if (region.firstElementChild) { watch.observe(region.firstElementChild); }
    });
  } else {
    window.addEventListener("resize", fitAll);
    window.addEventListener("load", fitAll);
  }
  fitAll();

  each(document.querySelectorAll(".run .current"), function (place) {
    var strip = place.parentNode;
    strip.scrollLeft = place.offsetLeft - (strip.clientWidth - place.offsetWidth) / 2;
  });
}());
