// The fifth and the sixth step: the review, and what is taken along.
function drawReview() {
  if (state.noText && state.sheets) return [el("p", {}, w("sheets_lead")), state.sheets.files.map((raw, at) => frame(raw, state.sheets.names[at]))];
  if (!state.outcome) return el("p", { class: "soft" }, w("nothing_yet"));
  const found = state.outcome;
  return [
    el("p", { class: "headline", role: "status" }, capital(found.headline)),
    el("p", { class: "soft" }, w("review_lead")),
    found.conflicts.length ? problems(found.conflicts, w("conflict")) : null,
    frame(state.review, w("review_frame")),
  ];
}

// ---- 6. take along
function drawTake() {
  if (state.noText) {
    if (!state.sheets) return el("p", { class: "soft" }, w("no_recipe"));
    return el("ul", { class: "files" }, state.sheets.names.map((name, at) => fileItem(name, w("file_checklist"), state.sheets.files[at], "text/html")));
  }
  if (!state.outcome) return el("p", { class: "soft" }, w("nothing_yet"));
  const list = el("ul", { class: "files", id: "files" });
  return [
    el("p", {}, w("take_lead")),
    state.texts.length > 1
      ? el("p", {}, w("own_folder"))
      : el("div", { class: "field kind-text" }, el("label", { for: "out-name" }, w("name_label")),
        textBox("out-name", state.name, (event) => ((state.name = event.target.value.trim() || proposedName()), fill(list)))),
    (fill(list), list),
    state.outcome.writes ? el("div", { class: "row" }, button(w("go_after"), afterThis), el("span", { class: "soft" }, w("go_after_why"))) : null,
  ];
}

function fileItem(name, words, raw, type, main = false) {
  const act = button(w("save"), () => save(name, raw, type), main ? "main" : "");
  act.setAttribute("aria-label", `${w("save")}: ${name}`);
  const acts = el("div", { class: "row" }, act);
  if (type === "text/markdown") {
    const copy = button(w("copy"), async () => {
      try {
        await navigator.clipboard.writeText(new TextDecoder().decode(raw));
        copy.textContent = w("copied");
      } catch {
        save(name, raw, type); // a page from a disk may not be allowed to
      }
    });
    copy.setAttribute("aria-label", `${w("copy")}: ${name}`);
    acts.append(copy);
  }
  return el("li", {}, el("div", {}, el("span", { class: "name" }, name), el("small", {}, `${words}, ${bytesIn(raw.length)}`)), acts);
}

const FILE_WORDS = [[".toml", "file_map", "application/toml"], [".ledger.json", "file_ledger", "application/json"], ["-review.html", "file_review", "text/html"],
  ["-checklist.html", "file_checklist", "text/html"], ["-sheet.html", "file_sheet", "text/html"], ["-review.md", "file_markdown", "text/markdown"]];

async function fill(list, call = "take", name = state.name) {
  const taken = await engine.call(call, { name });
  if (taken.refused) return list.replaceChildren(el("li", {}, problems(taken.refused)));
  const wordsOf = (file) => FILE_WORDS.find(([ending]) => file.endsWith(ending)) || ["", "file_text", "application/octet-stream"];
  const kinds = taken.names.map((file) => [file, ...wordsOf(file).slice(1)]);
  list.replaceChildren(...kinds.map(([file, key, type], at) => fileItem(file, w(key), taken.files[at], type, key === "file_text")));
}

function proposedName() {
  const name = state.texts[0].name;
  return `${stem(name)}-${state.recipes.join("-")}${name.slice(stem(name).length)}`;
}
