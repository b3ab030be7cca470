// The camera on a turntable: up stays up, as one walks round a piece of furniture.

const TURN_LIMIT = 89;

function turntable(camera, home, changed) {
  const state = { ...home, target: home.target.clone() };

  function place() {
    const turn = THREE.MathUtils.degToRad(state.turn);
    const rise = THREE.MathUtils.degToRad(state.rise);
    camera.position.set(
      Math.sin(turn) * Math.cos(rise), Math.sin(rise), Math.cos(turn) * Math.cos(rise),
    ).multiplyScalar(state.distance).add(state.target);
    camera.near = state.distance / 50;
    camera.far = state.distance * 20;
    camera.lookAt(state.target);
    camera.updateProjectionMatrix();
    changed();
  }

  return {
    state,
    place,
    turn(right, up) {
      state.turn += right;
      state.rise = THREE.MathUtils.clamp(state.rise + up, -TURN_LIMIT, TURN_LIMIT);
      place();
    },
    look(turn, rise) {
      state.turn = turn;
      state.rise = rise;
      state.target.copy(home.target);
      state.distance = home.distance;
      place();
    },
    zoom(factor) {
      state.distance = THREE.MathUtils.clamp(
        state.distance * factor, home.distance / 20, home.distance * 4,
      );
      place();
    },
    shift(right, up) {
      // By as much as the picture is moved on the screen, in fractions of its height.
      const reach = 2 * state.distance * Math.tan(THREE.MathUtils.degToRad(camera.fov / 2));
      const x = new THREE.Vector3().setFromMatrixColumn(camera.matrixWorld, 0);
      const y = new THREE.Vector3().setFromMatrixColumn(camera.matrixWorld, 1);
      state.target.addScaledVector(x, -right * reach).addScaledVector(y, up * reach);
      place();
    },
    about(point, distance) {
      state.target.copy(point);
      state.distance = distance;
      place();
    },
  };
}

// Fingers, mouse and keys on the stage. tapped(x, y) is called for a press that did not drag.
function startHands(stage, table, tapped) {
  const held = new Map();
  let dragged = 0;

  stage.addEventListener("pointerdown", (event) => {
    if (event.target.closest("button")) return;
    stage.setPointerCapture(event.pointerId);
    held.set(event.pointerId, [event.clientX, event.clientY]);
    if (held.size === 1) dragged = 0;
  });
  stage.addEventListener("pointermove", (event) => {
    const last = held.get(event.pointerId);
    if (!last) return;
    const x = event.clientX - last[0], y = event.clientY - last[1];
    dragged += Math.abs(x) + Math.abs(y);
    const height = stage.clientHeight;
    if (held.size === 1) {
      if (event.shiftKey || event.buttons > 1) table.shift(x / height, y / height);
      else table.turn(-x * 180 / height, y * 180 / height);
    } else {
      const other = [...held].find(([id]) => id !== event.pointerId)[1];
      const was = Math.hypot(last[0] - other[0], last[1] - other[1]);
      const is = Math.hypot(event.clientX - other[0], event.clientY - other[1]);
      if (was > 0 && is > 0) table.zoom(was / is);
      table.shift(x / 2 / height, y / 2 / height);
    }
    held.set(event.pointerId, [event.clientX, event.clientY]);
  });
  for (const name of ["pointerup", "pointercancel"]) {
    stage.addEventListener(name, (event) => {
      const wasHeld = held.delete(event.pointerId);
      if (wasHeld && name === "pointerup" && !held.size && dragged < 7 && event.button === 0) {
        tapped(event.clientX, event.clientY);
      }
    });
  }
  stage.addEventListener("contextmenu", (event) => event.preventDefault());
  stage.addEventListener("wheel", (event) => {
    // The page scrolls past the stage unless the stage is in use.
    if (document.activeElement !== stage && !event.ctrlKey) return;
    event.preventDefault();
    table.zoom(Math.exp(THREE.MathUtils.clamp(event.deltaY, -120, 120) * 0.002));
  }, { passive: false });
  const keys = {
    ArrowLeft: () => table.turn(-10, 0), ArrowRight: () => table.turn(10, 0),
    ArrowUp: () => table.turn(0, 10), ArrowDown: () => table.turn(0, -10),
    "+": () => table.zoom(0.85), "=": () => table.zoom(0.85), "-": () => table.zoom(1.18),
    Home: () => table.look(30, 20),
  };
  stage.addEventListener("keydown", (event) => {
    if (event.target !== stage || !keys[event.key] || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    keys[event.key]();
  });
}
