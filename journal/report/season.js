"use strict";
// Draws the charts at the reader's width, tells what the pointer is on, and makes them fit paper.
(() => {
  const PAPER = 672; // the width of an A4 page within its margins, in CSS pixels
  const PIECE = 200; // a chart taller than half as much again is printed in pieces about so tall
  const views = new Map();
  const root = document.documentElement;
  const tables = document.querySelectorAll("details");

  const hover = document.createElement("div");
  hover.id = "hover";
  hover.hidden = true;
  hover.setAttribute("aria-hidden", "true");
  document.body.append(hover);

  const tell = (handler, event, item, value) => {
    hover.hidden = value == null || value === "";
    if (hover.hidden) return;
    const lines = typeof value === "object" ? Object.entries(value) : [["", String(value)]];
    hover.replaceChildren(
      ...lines
        .filter(([, figure]) => figure != null && figure !== "" && figure !== "null")
        .map(([name, figure]) => {
          const line = document.createElement("div");
          const what = document.createElement("span");
          what.textContent = name;
          line.append(what, String(figure));
          return line;
        }),
    );
    const box = hover.getBoundingClientRect();
    const left = Math.min(event.clientX + 14, root.clientWidth - box.width - 8);
    const below = event.clientY + 18;
    const top = below + box.height > innerHeight ? event.clientY - box.height - 12 : below;
    hover.style.left = `${Math.max(8, left)}px`;
    hover.style.top = `${Math.max(8, top)}px`;
  };

  // ---------------------------------------------------------------- the year to compare with

  const picker = document.getElementById("against");
  const compare = (view) => {
    if (!picker) return;
    try {
      view.signal("against", Number(picker.value)).run();
    } catch {
      // a chart that compares with no year
    }
  };

  const showPairs = () => {
    for (const table of document.querySelectorAll("[data-against]"))
      table.hidden = picker !== null && table.dataset.against !== picker.value;
  };

  // ---------------------------------------------------------------- the plan of the plot

  const slider = document.getElementById("plot-day");
  if (slider) {
    const { days, shapes } = JSON.parse(document.getElementById("plot-stays").textContent);
    const says = document.getElementById("plot-says");
    const show = () => {
      const day = Number(slider.value);
      says.textContent = days[day - 1];
      slider.setAttribute("aria-valuetext", days[day - 1]);
      for (const [number, stays] of Object.entries(shapes)) {
        const standing = stays.filter(([, first, last]) => first <= day && day <= last);
        const names = [...new Set(standing.map(([name]) => name))];
        document.querySelector(`[data-list="${number}"]`).textContent =
          names.join(", ") || "nothing known";
        const shape = document.querySelector(`[data-shape="${number}"]`);
        for (const part of [shape, shape.nextElementSibling])
          part.classList.toggle("full", names.length > 0);
      }
    };
    slider.disabled = false;
    slider.addEventListener("input", show);
    show();
  }

  // ---------------------------------------------------------------- paper

  // the heights at which a picture can be cut without cutting through a word or a mark
  const cuts = (svg, height) => {
    const top = svg.getBoundingClientRect().top;
    const scale = height / svg.getBoundingClientRect().height;
    const kept = [...svg.querySelectorAll("text, path, line")]
      .map((mark) => mark.getBoundingClientRect())
      .map((box) => [(box.top - top) * scale, (box.bottom - top) * scale])
      .filter(([from, to]) => to - from > 0 && to - from < 60);
    const free = (at) => kept.every(([from, to]) => at <= from || at >= to);
    // the middle of the tallest stretch without a mark, the last of equals: a name stays with its bar
    const best = (from, to) => {
      const runs = [[from, 0]];
      for (let at = from; at <= to; at += 1)
        if (!free(at)) runs.push([at + 1, 0]);
        else runs.at(-1)[1] += 1;
      const tallest = Math.max(...runs.map(([, tall]) => tall));
      const [start, tall] = runs.findLast(([, each]) => each >= tallest - 2);
      return tall ? start + (tall - 1) / 2 : to;
    };
    const found = [0];
    while (height - found.at(-1) > PIECE * 1.5)
      found.push(best(found.at(-1) + PIECE / 2, found.at(-1) + PIECE));
    return [...found, height];
  };

  const onPaper = (place) => {
    const svg = place.querySelector("svg");
    const drawing = svg?.querySelector("g");
    const paper = place.parentElement.querySelector(".paper");
    if (!drawing) return;
    drawing.id = `${place.id}-drawing`;
    const [, , width, height] = svg.getAttribute("viewBox").split(" ").map(Number);
    const ends = cuts(svg, height);
    paper.replaceChildren(
      ...ends.slice(1).map((end, at) => {
        const piece = document.createElementNS("http://www.w3.org/2000/svg", "svg");
        piece.setAttribute("class", "piece");
        piece.setAttribute("viewBox", `0 ${ends[at]} ${width} ${end - ends[at]}`);
        const use = document.createElementNS("http://www.w3.org/2000/svg", "use");
        use.setAttribute("href", `#${drawing.id}`);
        piece.append(use);
        return piece;
      }),
    );
  };

  // what stands folded on the screen and belongs on the wall is unfolded for the paper
  const folded = [];
  addEventListener("beforeprint", () => {
    const whole = document.getElementById("whole")?.checked;
    for (const table of tables)
      if (!whole && table.classList.contains("pinned") && !table.open) {
        table.open = true;
        folded.push(table);
      }
    for (const [place, view] of views) view.width(PAPER).runAsync().then(() => onPaper(place));
  });
  addEventListener("afterprint", () => {
    for (const table of folded.splice(0)) table.open = false;
    for (const view of views.values()) view.resize().run();
    dispatchEvent(new Event("resize"));
  });

  // ---------------------------------------------------------------- the screen

  const draw = async () => {
    for (const script of document.querySelectorAll("script[data-chart]")) {
      const place = document.getElementById(script.dataset.chart);
      const options = { actions: false, renderer: "svg", ast: true, defaultStyle: false, tooltip: tell };
      const { view } = await vegaEmbed(place, JSON.parse(script.textContent), options);
      views.set(place, view);
      place.setAttribute("aria-hidden", "true"); // its words are the figure's caption
      compare(view);
      await view.runAsync();
      onPaper(place);
    }
    root.dataset.drawn = "yes";
  };

  for (const table of tables) {
    table.open = table.hasAttribute("data-open");
    table.querySelector("summary").addEventListener("click", () => {
      table.classList.toggle("asked", !table.open);
    });
  }
  root.classList.add("scripted");
  if (picker) {
    picker.disabled = false;
    showPairs();
    picker.addEventListener("change", () => {
      showPairs();
      for (const view of views.values()) compare(view);
    });
  }
  if (window.vegaEmbed) draw();
  else root.dataset.drawn = "yes";
})();
