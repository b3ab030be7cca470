// Boxes that stay ticked on this device, for this job in this state.

function kept(key) {
  // Some browsers refuse to store anything for a page that is opened from disk.
  try {
    const names = JSON.parse(localStorage.getItem(key) || "[]");
    localStorage.setItem(key, JSON.stringify(names));
    return {
      names: new Set(Array.isArray(names) ? names : []),
      keep(all) { localStorage.setItem(key, JSON.stringify([...all].sort())); },
    };
  } catch (refused) {
    document.getElementById("unkept").hidden = false;
    return { names: new Set(), keep() {} };
  }
}

function startTicks(key) {
  const store = kept(key);
  const boxes = [...document.querySelectorAll("[data-tick]")];
  const tally = document.getElementById("tally");

  function tell() {
    const done = boxes.filter((box) => box.checked).length;
    tally.textContent = `${done} of ${boxes.length} ticked.`;
  }

  function keep() {
    tell();
    try {
      store.keep(boxes.filter((box) => box.checked).map((box) => box.dataset.tick));
    } catch (full) {
      document.getElementById("unkept").hidden = false;
    }
  }

  for (const box of boxes) {
    box.checked = store.names.has(box.dataset.tick);
    box.addEventListener("change", keep);
  }
  document.getElementById("untick").addEventListener("click", () => {
    if (!window.confirm("Clear all ticks of this job?")) return;
    for (const box of boxes) box.checked = false;
    keep();
  });
  tell();
}
