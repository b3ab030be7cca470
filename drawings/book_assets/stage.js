// The 3D view: model, camera, light, what is chosen, and the marks that lie over it.

const FIT_ROOM = 1.08; // from the unit to the edge of the view
const SPREAD_ROOM = 0.7; // how much further away the unit is looked at when spread apart
// Where the lamp is held, from the camera: to its left and above, in distances of the camera.
const LAMP = [-0.45, 0.7, 0];

async function startStage(data) {
  const stage = document.getElementById("stage");
  const canvas = document.getElementById("canvas");
  const renderer = new THREE.WebGLRenderer({ canvas, alpha: true, antialias: true, stencil: true });
  renderer.outputEncoding = THREE.sRGBEncoding;
  renderer.localClippingEnabled = true;
  const { scene: unit, root, bodies } = await loadModel(data.pieces);
  const scene = new THREE.Scene();
  scene.add(unit);
  scene.add(new THREE.HemisphereLight(0xffffff, 0x9a9488, 0.75));
  const lamp = new THREE.DirectionalLight(0xffffff, 0.55);
  scene.add(lamp);
  scene.updateMatrixWorld();

  const camera = new THREE.PerspectiveCamera(28, 1, 0.01, 100);
  const box = new THREE.Box3().setFromObject(unit);
  const home = { turn: 30, rise: 20, target: box.getCenter(new THREE.Vector3()), distance: 1 };
  let spread = 0;
  let isAsked = false;
  const section = startSection(scene, bodies, data.outline, renderer);
  const places = startPlaces(bodies, data.moves, data.outline, data.steps);
  const marks = startMarks(data, places, root, camera, stage, section);
  const table = turntable(camera, home, ask);
  let chosen = null, isFading = false;

  function draw() {
    isAsked = false;
    scene.updateMatrixWorld();
    camera.updateMatrixWorld();
    lamp.position.set(...LAMP).multiplyScalar(table.state.distance);
    camera.localToWorld(lamp.position).sub(table.state.target);
    section.show();
    renderer.render(scene, camera);
    marks(chosen);
  }
  function ask() {
    if (isAsked) return;
    isAsked = true;
    requestAnimationFrame(draw);
  }
  // So far away that the unit fills the view from the front, the side and the corner.
  function fit(width, height) {
    camera.aspect = width / height;
    const high = Math.tan(THREE.MathUtils.degToRad(camera.fov / 2));
    return FIT_ROOM * Math.max(...[[0, 0], [30, 20], [90, 0]].map(
      ([turn, rise]) => distanceFor(box, turn, rise, high * camera.aspect, high),
    ));
  }
  function resize() {
    const width = stage.clientWidth, height = stage.clientHeight;
    if (!width || !height) return;
    renderer.setPixelRatio(Math.min(window.devicePixelRatio || 1, 2));
    renderer.setSize(width, height, false);
    const was = home.distance;
    home.distance = fit(width, height);
    table.state.distance *= home.distance / was;
    table.place();
  }
  function picture(sheet) {
    const { width, height } = sheet;
    renderer.setPixelRatio(1);
    renderer.setSize(width, height, false);
    table.state.distance = fit(width, height);
    table.place();
    draw();
    // A still copy: it is printed as well, which a 3D canvas is not.
    sheet.getContext("2d").drawImage(canvas, 0, 0);
    table.state.distance = 1;
    home.distance = 1;
  }
  function look() {
    bodies.forEach((body, index) => {
      paint(body, index === chosen, isFading && chosen !== null && index !== chosen);
    });
    ask();
  }
  function pieceAt(x, y) {
    const frame = canvas.getBoundingClientRect();
    const ray = new THREE.Raycaster();
    ray.setFromCamera({
      x: 2 * (x - frame.left) / frame.width - 1, y: 1 - 2 * (y - frame.top) / frame.height,
    }, camera);
    const hit = ray.intersectObjects(bodies.map((body) => body.mesh).filter((mesh) => mesh.visible), false)
      .find((one) => !section.isCutAway(one.point));
    return hit ? bodies.findIndex((body) => body.mesh === hit.object) : null;
  }

  picture(document.getElementById("picture"));
  await shown();
  performance.mark("first picture");
  new ResizeObserver(resize).observe(stage);
  resize();
  return {
    table, pieceAt,
    choose(index) { chosen = index; look(); },
    fade(isOn) { isFading = isOn; look(); },
    near(index) {
      table.about(root.localToWorld(places.middle(index)), Math.max(
        4 * bodies[index].radius, home.distance / 8,
      ));
    },
    travel(which, distance) { places.travel(which, distance); ask(); },
    build(count) { places.build(count); ask(); },
    spread(share) {
      places.spread(share);
      table.zoom((1 + SPREAD_ROOM * share) / (1 + SPREAD_ROOM * spread));
      spread = share;
    },
    cut(axis, share) { const away = section.cut(axis, share); ask(); return away; },
    hands(tapped) { startHands(stage, table, tapped); },
  };
}

// When the browser has put on the screen what was drawn; soon in any case, if it is not seen.
function shown() {
  return new Promise((done) => {
    requestAnimationFrame(() => setTimeout(done));
    setTimeout(done, 1000);
  });
}

// How far from its middle a box is looked at so that all of it is seen.
function distanceFor(box, turn, rise, wide, high) {
  const about = new THREE.Quaternion().setFromEuler(new THREE.Euler(
    THREE.MathUtils.degToRad(rise), THREE.MathUtils.degToRad(-turn), 0, "XYZ",
  ));
  const half = box.getSize(new THREE.Vector3()).multiplyScalar(0.5);
  let distance = 0;
  for (const x of [-1, 1]) {
    for (const y of [-1, 1]) {
      for (const z of [-1, 1]) {
        const corner = half.clone().multiply(new THREE.Vector3(x, y, z)).applyQuaternion(about);
        distance = Math.max(
          distance, Math.abs(corner.x) / wide + corner.z, Math.abs(corner.y) / high + corner.z,
        );
      }
    }
  }
  return distance;
}

// Marks of findings and the flag of the chosen piece, laid over the picture.
function startMarks(data, places, root, camera, stage, section) {
  const buttons = [...document.querySelectorAll("[data-finding]")];
  const flag = document.getElementById("flag");

  function lay(element, point) {
    const world = root.localToWorld(point);
    const isAway = element !== flag && section.isCutAway(world);
    world.project(camera);
    const x = (world.x + 1) / 2, y = (1 - world.y) / 2;
    element.hidden = isAway || world.z > 1 || x < 0 || x > 1 || y < 0 || y > 1;
    if (element.hidden) return;
    // Kept inside the view: a flag at the edge would be cut off.
    const left = Math.min(x * stage.clientWidth, stage.clientWidth - (element === flag ? flag.offsetWidth : 0));
    element.style.transform = `translate(${left.toFixed(1)}px, ${(y * stage.clientHeight).toFixed(1)}px)`;
  }
  function placeOf(finding) {
    const [first] = finding.pieces;
    if (finding.where) {
      const point = new THREE.Vector3(...finding.where).multiplyScalar(1 / 1000);
      return first === undefined ? point : point.add(places.offset(first));
    }
    return first === undefined ? null : places.middle(first);
  }

  return (chosen) => {
    buttons.forEach((button) => {
      const point = placeOf(data.findings[Number(button.dataset.finding)]);
      if (point) lay(button, point);
    });
    flag.hidden = chosen === null;
    if (chosen !== null) lay(flag, places.middle(chosen));
  };
}
