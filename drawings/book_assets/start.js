// First the page, then the picture: what is read works before anything is drawn.

async function start() {
  const data = JSON.parse(document.getElementById("data").textContent);
  for (const move of data.moves) move.members = new Set(move.pieces);
  startTicks(data.key);
  startSheets();
  let view = null;
  try {
    view = await startStage(data);
  } catch (refused) {
    // No WebGL here: the list, the card and the sheets work without it.
    document.getElementById("no-stage").hidden = false;
    document.getElementById("canvas").hidden = true;
    document.getElementById("picture").hidden = true;
    document.getElementById("no-picture").hidden = false;
    for (const input of document.querySelectorAll(".jb-side input, .jb-handles button, #back")) {
      input.disabled = true;
    }
    console.warn(String(refused));
  }
  const choose = startCard(data, view);
  if (view) {
    startView(data, view, choose);
  }
  document.documentElement.dataset.book = view ? "drawn" : "plain";
}

start();
