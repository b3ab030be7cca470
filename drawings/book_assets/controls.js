// The controls beside the view. They work on the page alone where there is no view.

function told(distance, move) {
  if (move.pitch) {
    const row = Math.round((distance - move.low) / move.pitch) + 1;
    return `row ${row} of ${move.settings}`;
  }
  const far = Math.abs(distance);
  const words = far < 0.05 ? "" : ` ${distance > 0 ? move.ahead : move.astern}`;
  return `${Number(far.toFixed(1))} mm${words}`;
}

function showOn(input, words) {
  input.setAttribute("aria-valuetext", words);
  input.parentElement.querySelector("output").textContent = words;
}

function startCard(data, view) {
  const find = (id) => document.getElementById(id);
  const buttons = [...document.querySelectorAll("[data-piece]")];
  const byPiece = new Map();
  for (const button of buttons) {
    const index = Number(button.dataset.piece);
    byPiece.set(index, [...byPiece.get(index) ?? [], button]);
  }
  let chosen = null;

  function press(index, isPressed) {
    for (const button of byPiece.get(index) ?? []) button.setAttribute("aria-pressed", String(isPressed));
  }
  function choose(index) {
    press(chosen, false);
    press(index, true);
    chosen = index;
    find("card-none").hidden = index !== null;
    find("card-one").hidden = index === null;
    find("card-buttons").hidden = index === null;
    if (index !== null) fill(data.pieces[index]);
    if (view) {
      find("flag").textContent = index === null ? "" : flagged(data.pieces[index]);
      view.choose(index);
    }
  }
  function flagged(piece) {
    return piece.mark ? `${piece.mark} ${piece.name}` : piece.name;
  }
  function fill(piece) {
    find("card-mark").textContent = piece.mark;
    find("card-name").textContent = piece.name;
    const facts = find("card-facts");
    facts.replaceChildren();
    for (const [word, value] of piece.facts) {
      const term = document.createElement("dt"), said = document.createElement("dd");
      term.textContent = word;
      said.textContent = value;
      facts.append(term, said);
    }
    const line = find("card-sheet");
    line.hidden = piece.sheet === null;
    if (piece.sheet !== null) {
      const link = line.firstElementChild;
      link.href = `#sheet-${piece.sheet}`;
      link.textContent = `Sheet ${piece.sheet}, ${piece.sheetTitle}`;
    }
  }

  for (const button of buttons) {
    const index = Number(button.dataset.piece);
    button.addEventListener("click", () => {
      choose(chosen === index && !button.closest(".jb-findings") ? null : index);
      if (button.closest(".jb-findings")) find("round").scrollIntoView();
    });
  }
  find("leave").addEventListener("click", () => choose(null));
  const fade = find("fade");
  if (view) {
    find("near").addEventListener("click", () => view.near(chosen));
    fade.addEventListener("click", () => {
      const isOn = fade.getAttribute("aria-pressed") !== "true";
      fade.setAttribute("aria-pressed", String(isOn));
      view.fade(isOn);
    });
  } else {
    find("near").hidden = true;
    fade.hidden = true;
  }
  return choose;
}

function startView(data, view, choose) {
  const find = (id) => document.getElementById(id);
  const sliders = [...document.querySelectorAll("[data-move]")];
  const spread = find("spread"), at = find("cut-at"), order = find("order");
  const cuts = [...document.querySelectorAll("[name=cut]")];

  function move(input) {
    const which = Number(input.dataset.move), distance = Number(input.value);
    view.travel(which, distance);
    showOn(input, told(distance, data.moves[which]));
  }
  function spreadOut() {
    view.spread(Number(spread.value) / 100);
    showOn(spread, `${spread.value} %`);
  }
  function build() {
    if (!order) return;
    const count = Number(order.value), which = Math.min(Math.ceil(count), data.steps.length) - 1;
    view.build(count);
    showOn(order, which < 0 ? "nothing yet" : `step ${which + 1} of ${data.steps.length}`);
    find("order-words").textContent = which < 0 ? "" : data.steps[which].words;
  }
  function goTo(count) {
    order.value = count;
    build();
  }
  function cut() {
    const { value } = cuts.find((one) => one.checked);
    at.disabled = value === "";
    const away = view.cut(value === "" ? null : Number(value), Number(at.value));
    const from = { 0: "from the left", 1: "from the front", 2: "from above" }[value];
    showOn(at, from ? `${Number(away.toFixed(1))} mm ${from}` : "not cut");
  }

  for (const input of sliders) input.addEventListener("input", () => move(input));
  spread.addEventListener("input", spreadOut);
  if (order) {
    order.addEventListener("input", build);
    find("order-back").addEventListener("click", () => goTo(Math.ceil(Number(order.value)) - 1));
    find("order-on").addEventListener("click", () => goTo(Math.floor(Number(order.value)) + 1));
  }
  for (const one of [...cuts, at]) one.addEventListener("input", cut);
  for (const button of document.querySelectorAll("[data-turn]")) {
    button.addEventListener("click", () => view.table.turn(...button.dataset.turn.split(" ").map(Number)));
  }
  for (const button of document.querySelectorAll("[data-look]")) {
    button.addEventListener("click", () => view.table.look(...button.dataset.look.split(" ").map(Number)));
  }
  for (const button of document.querySelectorAll("[data-zoom]")) {
    button.addEventListener("click", () => view.table.zoom(Number(button.dataset.zoom)));
  }
  for (const button of document.querySelectorAll("[data-finding]")) {
    button.addEventListener("click", () => {
      const finding = data.findings[Number(button.dataset.finding)];
      if (finding.pieces.length) choose(finding.pieces[0]);
      const line = document.getElementById(`finding-${button.dataset.finding}`);
      line.scrollIntoView({ block: "center" });
      line.focus({ preventScroll: true });
    });
  }
  view.hands((x, y) => choose(view.pieceAt(x, y)));

  function all() {
    sliders.forEach(move);
    spreadOut();
    build();
    cut();
  }
  find("back").addEventListener("click", () => {
    for (const input of sliders) input.value = 0;
    spread.value = 0;
    if (order) order.value = data.steps.length;
    at.value = 0.5;
    cuts[0].checked = true;
    all();
    choose(null);
    view.table.look(30, 20);
  });
  all();
}
