"use strict";
(() => {
  const all = (where) => Array.from(document.querySelectorAll(where));
  const words = (text) => (text || "").split(" ").filter(Boolean);

  const choose = (name) => {
    for (const part of all("[data-setups]")) {
      const isAside = name !== "" && !words(part.dataset.setups).includes(name);
      if (part instanceof SVGElement) part.classList.toggle("rd-aside", isAside);
      else part.hidden = isAside;
    }
  };
  const form = document.querySelector(".switch");
  if (form) {
    form.hidden = false;
    form.addEventListener("change", (event) => choose(event.target.value));
    choose(form.querySelector("input:checked").value);
  }

  const light = (names) => {
    for (const part of all(".lit")) part.classList.remove("lit");
    if (!names.length) return;
    for (const part of all("[data-item], [data-lead], [data-port], [data-lights]")) {
      const own = [part.dataset.item, part.dataset.lead, part.dataset.port];
      const lights = part.closest("svg") ? [] : words(part.dataset.lights).slice(0, 1);
      if (own.concat(lights).some((one) => one && names.includes(one))) part.classList.add("lit");
    }
  };
  let held = null;
  const pointed = (target) => (target instanceof Element ? target.closest("[data-lights], svg [data-lead], svg [data-item]") : null);
  const names = (part) => (part ? words(part.dataset.lights || part.dataset.lead || part.dataset.item) : []);
  document.addEventListener("pointerover", (event) => { if (!held) light(names(pointed(event.target))); });
  document.addEventListener("focusin", (event) => { held = null; light(names(pointed(event.target))); });
  document.addEventListener("click", (event) => {
    const part = pointed(event.target);
    held = part === held ? null : part;
    light(names(held));
  });
  document.addEventListener("keydown", (event) => { if (event.key === "Escape") { held = null; light([]); } });

  const find = document.querySelector(".find");
  const field = document.querySelector("#find");
  const said = document.querySelector("#found");
  const cards = all("#devices [data-find]");
  find.hidden = false;
  find.addEventListener("submit", (event) => event.preventDefault());
  field.addEventListener("input", () => {
    const wanted = words(field.value.toLowerCase());
    let left = 0;
    for (const card of cards) {
      const fits = wanted.every((word) => card.dataset.find.includes(word));
      card.classList.toggle("missed", !fits);
      if (fits) left += 1;
    }
    said.textContent = wanted.length ? `${left} of ${cards.length} devices` : "";
  });
  field.addEventListener("keydown", (event) => {
    const first = cards.find((card) => !card.classList.contains("missed") && !card.hidden);
    if (event.key === "Enter" && first) { first.scrollIntoView(); first.focus(); }
  });
})();
