// The picture first, since it takes the longest; then all that needs the whole page.

function wholePage() {
  return new Promise((done) => {
    if (document.readyState !== "loading") done();
    else document.addEventListener("DOMContentLoaded", done, { once: true });
  });
}

// No WebGL here: the list, the card and the sheets work without it.
function withoutView() {
  document.getElementById("no-stage").hidden = false;
  document.getElementById("canvas").hidden = true;
  document.getElementById("picture").hidden = true;
  document.getElementById("no-picture").hidden = false;
  for (const input of document.querySelectorAll(".jb-set input, .jb-handles button, #back")) {
    input.disabled = true;
  }
}

async function start() {
  const data = JSON.parse(document.getElementById("data").textContent);
  for (const move of [...data.moves, ...data.steps]) move.members = new Set(move.pieces);
  let view = null;
  try {
    view = startStage();
    await view.show(data, modelBytes());
    view.picture(document.getElementById("picture"));
    await shown();
    performance.mark("first picture");
    view.fill();
  } catch (refused) {
    withoutView();
    console.warn(String(refused));
  }
  await wholePage();
  startTicks(data.key);
  startSheets();
  const choose = startCard(data, view);
  if (view) startView(data, view, choose);
  document.documentElement.dataset.book = view ? "drawn" : "plain";
}

start();
