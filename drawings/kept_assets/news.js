// What the server tells, put into the page. Texts are set as text; what is set as markup was
// written by the page's own templates, and the policy of the page lets no program run from it.

const find = (id) => document.getElementById(id);

// How what was set by hand stays so when the controls are made anew.
function handSet() {
  const values = new Map(), open = new Map();
  for (const input of document.querySelectorAll("[data-keep]")) values.set(input.dataset.keep, input.value);
  for (const one of document.querySelectorAll("#side details")) open.set(one.textContent.trim().split("\n")[0], one.open);
  return {
    values, open,
    cut: document.querySelector("[name=cut]:checked")?.value ?? "",
    chosen: find("card-one")?.hidden === false ? find("card-name").textContent : null,
    isFading: find("fade")?.getAttribute("aria-pressed") === "true",
    focus: find("side").contains(document.activeElement) ? document.activeElement.id : "",
  };
}

function setAgain(set, data, choose) {
  for (const one of document.querySelectorAll("#side details")) {
    one.open = set.open.get(one.textContent.trim().split("\n")[0]) ?? one.open;
  }
  const chosen = data.pieces.findIndex((piece) => piece.name === set.chosen);
  if (chosen >= 0) choose(chosen);
  if (chosen >= 0 && set.isFading) find("fade").click();
  if (set.focus) find(set.focus)?.focus({ preventScroll: true });
}

function setInputs(set) {
  for (const input of document.querySelectorAll("[data-keep]")) {
    input.value = set.values.get(input.dataset.keep) ?? input.value;
  }
  for (const one of document.querySelectorAll("[name=cut]")) one.checked = one.value === set.cut;
}

function startModel(view) {
  const held = { model: null, faulty: null };
  let mistake = null;
  let isFaulty = false; // whether the faulty one is to be shown
  let inView = null; // round of the model in view

  async function show(content) {
    const { data, html } = content;
    let bytes = null;
    if (inView !== content.round) {
      const given = await fetch(`/${content.file}`);
      // A newer one has taken its place, and its news are on their way.
      if (!given.ok) return;
      bytes = await given.arrayBuffer();
    }
    for (const move of data.moves) move.members = new Set(move.pieces);
    const set = handSet();
    for (const hole of ["marks", "side", "findings"]) find(hole).innerHTML = html[hole];
    find("handles").replaceChildren(find("handles-made").content.cloneNode(true));
    if (view && bytes) await view.show(data, bytes);
    else if (view) view.mark(data);
    inView = content.round;
    find("name").textContent = content.name;
    find("summary").textContent = content.summary;
    document.title = `${content.name}, kept drawn`;
    const choose = startCard(data, view);
    if (view) {
      setInputs(set);
      startView(data, view, choose);
    }
    setAgain(set, data, choose);
    if (view) await view.drawn();
    document.documentElement.dataset.round = content.round;
  }

  const button = find("all-the-same");
  function tell() {
    button.setAttribute("aria-pressed", String(isFaulty));
    find("mistake-kept").textContent = isFaulty
      ? "Below is the last save with its errors; the part sheets are those of the last good save."
      : standing(mistake);
  }
  button.addEventListener("click", () => {
    isFaulty = !isFaulty;
    tell();
    const wanted = isFaulty ? held.faulty : held.model;
    if (wanted) later(() => show(wanted));
  });
  return {
    doubt(content) { mistake = content; },
    async take(slot, content) {
      held[slot] = content;
      if (slot === "model") {
        isFaulty = false;
        if (!content) return;
        await show(content);
      } else if (isFaulty && content) {
        await show(content);
      } else if (isFaulty) {
        isFaulty = false;
        if (held.model) await show(held.model);
      }
      tell();
      if (slot === "model" && content.is_checked) showContents(content.sheets);
    },
  };
}

// Which save is in view beside a mistake.
function standing(mistake) {
  if (mistake?.is_this) return "Below is this save, which the checks have passed.";
  return mistake?.is_kept ? "Below is the last good save." : "There was no good save yet.";
}

function showMistake(mistake) {
  find("mistake").hidden = mistake === null;
  if (mistake === null) return;
  find("mistake-title").textContent = mistake.title;
  for (const part of ["place", "code"]) {
    find(`mistake-${part}`).textContent = mistake[part];
    find(`mistake-${part}`).hidden = mistake[part] === "";
  }
  const list = find("mistake-sentences");
  list.dataset.count = mistake.sentences.length;
  list.replaceChildren(...mistake.sentences.map((sentence) => {
    const line = document.createElement("li");
    line.textContent = sentence;
    return line;
  }));
  find("mistake-kept").textContent = standing(mistake);
  find("all-the-same").hidden = !(mistake.is_drawn && mistake.is_kept);
}

function seconds(value) {
  return `${value.toFixed(2)} s`;
}

function showState(state) {
  const line = find("state");
  find("script").textContent = state.script;
  line.dataset.phase = state.phase;
  const model = state.model === null ? "" : `Model drawn ${seconds(state.model)} after the save`;
  const checks = state.checks === null ? "" : `, findings ${seconds(state.checks)}`;
  const sheets = state.sheets === null ? "" : `, part sheets ${seconds(state.sheets)}`;
  const left = state.sheets_left === 1 ? "1 part sheet" : `${state.sheets_left} part sheets`;
  line.textContent = {
    starting: "Starting: the first drawing takes some seconds.",
    drawing: "Saved. Drawing again; what is shown is the save before.",
    checks: `${model}. Still to come: findings, part sheets, plans.`,
    sheets: `${model}${checks}. Still to come: ${left}, plans.`,
    plans: `${model}${checks}${sheets}. Still to come: cut plan, set-ups, gluing.`,
    drawn: `${model}${checks}${sheets}, plans ${seconds(state.plans ?? 0)}. All is as saved.`,
    refused: "The last save is not drawn: see the mistake.",
  }[state.phase];
}

function showContents(sheets) {
  const numbers = new Set(sheets.map(([number]) => number));
  for (const figure of document.querySelectorAll("#papers figure")) {
    if (!numbers.has(Number(figure.dataset.number))) figure.remove();
  }
  find("contents").replaceChildren(...sheets.map(([number, title]) => {
    const line = document.createElement("li"), link = document.createElement("a");
    line.value = number;
    link.href = `#sheet-${number}`;
    link.textContent = title;
    line.append(link);
    paper(number, title);
    return line;
  }));
}

function paper(number, title) {
  let figure = find(`sheet-${number}`);
  if (!figure) {
    figure = find("paper-made").content.cloneNode(true).firstElementChild;
    figure.id = `sheet-${number}`;
    figure.dataset.number = number;
    const button = figure.querySelector("button");
    button.addEventListener("click", () => {
      const isLarge = button.getAttribute("aria-pressed") !== "true";
      button.setAttribute("aria-pressed", String(isLarge));
      figure.querySelector(".jb-hold").classList.toggle("jb-large", isLarge);
    });
    const next = [...document.querySelectorAll("#papers figure")].find((one) => Number(one.dataset.number) > number);
    find("papers").insertBefore(figure, next ?? null);
    figure.querySelector(".kd-tag").textContent = "still to be drawn";
  }
  figure.querySelector("h3").textContent = `${number} ${title}`;
  figure.querySelector("button").setAttribute("aria-label", `True size: sheet ${number}`);
  figure.querySelector(".jb-hold").setAttribute("aria-label", `Sheet ${number}, ${title}`);
  return figure;
}

function showSheet(sheet) {
  const figure = paper(sheet.number, sheet.title);
  figure.className = `jb-sheet jb-paper-${sheet.paper}`;
  const hold = figure.querySelector(".jb-hold"), tag = figure.querySelector(".kd-tag");
  let image = hold.querySelector("img");
  const isFirst = image === null;
  if (isFirst) {
    image = document.createElement("img");
    hold.append(image);
  }
  image.alt = `Sheet ${sheet.number}, ${sheet.title}`;
  const file = `/${sheet.file}`;
  const isChanged = image.getAttribute("src") !== file;
  if (isChanged) image.src = file;
  const isNews = isChanged && !isFirst;
  tag.textContent = isNews ? "changed by the last save" : "";
  tag.dataset.kind = isNews ? "changed" : "";
}

// News are put in one after another, each when the one before stands.
let line = Promise.resolve();
function later(step) {
  line = line.then(step).catch((error) => console.error(error));
}

function startNews() {
  let view = null;
  try {
    view = startStage();
    view.fill();
  } catch (refused) {
    find("no-stage").hidden = false;
    find("canvas").hidden = true;
    console.warn(String(refused));
  }
  const model = startModel(view);
  const source = new EventSource("/news");
  function take(slot, content) {
    if (slot === "state") return showState(content);
    if (slot === "mistake") {
      model.doubt(content);
      return showMistake(content);
    }
    if (slot === "model" || slot === "faulty") return model.take(slot, content);
    return content === null ? undefined : showSheet(content);
  }
  source.addEventListener("message", (event) => {
    const { slot, content } = JSON.parse(event.data);
    later(() => take(slot, content));
  });
  source.addEventListener("error", () => later(() => {
    find("state").dataset.phase = "away";
    find("state").textContent = "The program has ended or cannot be reached; what is shown is its last drawing.";
  }));
}

startNews();
