// Small pieces that all steps are made of. Texts become text nodes: nothing of a stranger's is ever markup.
const WORDS = JSON.parse(document.getElementById("words").textContent);
const ABOUT = JSON.parse(document.getElementById("about").textContent);
const LIBRARY = JSON.parse(document.getElementById("library").textContent);
let language = (navigator.languages || ["en"]).map((name) => name.slice(0, 2)).find((name) => WORDS[name]) || "en";

function w(key, values = {}) {
  const text = WORDS[language][key] ?? WORDS.en[key];
  return text.replace(/\{(\w+)\}/g, (whole, name) => (name in values ? values[name] : whole));
}

// el("p", {class: "soft", onclick: f}, "text", child, ...)
function el(tag, attributes = {}, ...children) {
  const node = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (name.startsWith("on")) node.addEventListener(name.slice(2), value);
    else if (value === true) node.setAttribute(name, "");
    else if (value !== false && value !== null && value !== undefined) node.setAttribute(name, value);
  }
  node.append(...children.flat(9).filter((child) => child !== null && child !== undefined && child !== false));
  return node;
}

const stem = (name) => name.replace(/\.[^.]*$/, "");
const named = (node, label) => (node.setAttribute("aria-label", label), node);
const button = (words, act, kind = "") => el("button", { type: "button", class: kind, onclick: act }, words);

function problems(list, head = w("refused")) {
  const items = list.map((item) =>
    el("li", {}, `${item.place ? `${item.place}: ` : ""}${item.message}${item.hint ? ` ${item.hint}` : ""}`),
  );
  return el("div", { class: "alarm", role: "alert" }, el("p", {}, head), el("ul", {}, items));
}

function bytesIn(count) {
  return count < 1000 ? `${count} B` : count < 1e6 ? `${Math.round(count / 1000)} kB` : `${(count / 1e6).toFixed(1)} MB`;
}

function save(name, bytes, type) {
  const url = URL.createObjectURL(new Blob([bytes], { type }));
  const link = el("a", { href: url, download: name });
  link.click();
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}

// A page of the engine's own in a frame that runs no script and leads nowhere. It is as high as what it shows.
function frame(bytes, title) {
  const whole = new DOMParser().parseFromString(new TextDecoder().decode(bytes), "text/html");
  for (const script of whole.querySelectorAll("script")) script.remove();
  const page = `<!doctype html>${whole.documentElement.outerHTML}`;
  const node = el("iframe", { sandbox: "allow-same-origin", title, srcdoc: page });
  node.addEventListener("load", () => {
    const inside = node.contentDocument && node.contentDocument.documentElement;
    if (!inside) return;
    const fit = () => {
      node.style.height = `${Math.ceil(inside.querySelector("body").getBoundingClientRect().height) + 24}px`;
    };
    new ResizeObserver(fit).observe(inside.querySelector("body"));
    fit();
    for (const link of inside.querySelectorAll('a[href^="#"]')) {
      link.addEventListener("click", (event) => {
        const target = inside.querySelector(link.getAttribute("href"));
        if (!target) return;
        event.preventDefault();
        const top = node.getBoundingClientRect().top + target.getBoundingClientRect().top + scrollY - 70;
        scrollTo({ top });
      });
    }
  });
  return node;
}
