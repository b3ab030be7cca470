// The 3D view: one model after another, seen by the same camera, with the marks that lie over it.

const FIT_ROOM = 1.08; // from the unit to the edge of the view
const SPREAD_ROOM = 0.7; // how much further away the unit is looked at when spread apart
// Where the lamp is held, from the camera: to its left and above, in distances of the camera.
const LAMP = [-0.45, 0.7, 0];
// Pixels drawn for each of the screen's, to a side, and by how many of those drawn a picture may be
// off: by the first at rest, by the others while it turns on a machine that draws slowly. Two for
// one make smooth edges at less cost than the engine's own smoothing.
const FINENESS = [[2, 1], [1, 2], [0.6, 2]];
const SLOW = 60; // ms from asking for a picture until it is drawn
const QUICK = 25;
const REST = 250; // ms without a new picture

function startStage() {
  const stage = document.getElementById("stage");
  const canvas = document.getElementById("canvas");
  const renderer = new THREE.WebGLRenderer({ canvas, alpha: true, antialias: false });
  renderer.outputEncoding = THREE.sRGBEncoding;
  renderer.localClippingEnabled = true;
  const camera = new THREE.PerspectiveCamera(28, 1, 0.01, 100);
  const home = { turn: 30, rise: 20, target: new THREE.Vector3(), distance: 1 };
  const table = turntable(camera, home, ask);
  let shown = null; // the model in view, with all that belongs to it
  let tapped = () => {};
  let isSized = false; // not before: to ask for sizes has the whole page laid out
  let spread = 0, fine = 0, quick = 0, trial = 30, pixels = 0, resting = 0, drawnAt = -Infinity, askedAt = null;
  const told = []; // who waits until the next picture stands

  function draw(fineness) {
    if (isSized) {
      sharpen(FINENESS[fineness][0]);
      render(FINENESS[fineness][1]);
    }
    shown.marks(shown.chosen);
    for (const tell of told.splice(0)) tell();
  }
  function sharpen(wanted) {
    if (pixels === wanted) return;
    pixels = wanted;
    renderer.setPixelRatio(pixels);
  }
  function render(coarse) {
    const { scene, lamp, section, places, crowd } = shown;
    if (places.settle()) {
      crowd.moved();
      section.moved();
    }
    camera.updateMatrixWorld();
    lamp.position.set(...LAMP).multiplyScalar(table.state.distance);
    camera.localToWorld(lamp.position).sub(table.state.target);
    section.settle();
    crowd.arrange(camera, canvas.height, coarse);
    renderer.render(scene, camera);
  }
  // A picture that comes late is followed by coarser ones, until the unit is at rest; after many
  // that come in good time, finer ones are tried again, each time later.
  function next() {
    const now = performance.now(), wait = now - askedAt;
    if (askedAt - drawnAt < REST && wait > SLOW) {
      fine = Math.min(fine + 1, FINENESS.length - 1);
      quick = 0;
    } else if (fine > 0 && wait < QUICK && (quick += 1) > trial) {
      fine -= 1;
      quick = 0;
      trial *= 2;
    }
    askedAt = null;
    if (!shown) return;
    draw(fine);
    drawnAt = now;
    clearTimeout(resting);
    if (fine > 0) resting = setTimeout(rest, REST);
  }
  function rest() {
    if (askedAt === null) draw(0);
  }
  function ask() {
    if (askedAt !== null) return;
    askedAt = performance.now();
    // A page that is not in front is given no frames, but is to be found drawn.
    if (document.hidden) setTimeout(next);
    else requestAnimationFrame(next);
  }
  // So far away that the unit fills the view from the front, the side and the corners.
  function fit(width, height) {
    camera.aspect = width / height;
    const high = Math.tan(THREE.MathUtils.degToRad(camera.fov / 2));
    return FIT_ROOM * Math.max(...[[0, 0], [30, 20], [60, 20], [90, 0]].map(
      ([turn, rise]) => distanceFor(shown.box, turn, rise, high * camera.aspect, high),
    ));
  }
  function resize() {
    const width = stage.clientWidth, height = stage.clientHeight;
    if (!width || !height) return;
    isSized = true;
    sharpen(FINENESS[0][0]);
    renderer.setSize(width, height, false);
    camera.aspect = width / height;
    if (!shown) return;
    const was = home.distance;
    home.distance = fit(width, height);
    table.state.distance *= home.distance / was;
    table.place();
  }
  // A camera that was moved stays where it is; one that was not follows the unit.
  function frame(isFirst) {
    const { state } = table;
    const isHome = state.distance === home.distance && state.target.equals(home.target);
    shown.box.getCenter(home.target);
    if (isSized) home.distance = fit(stage.clientWidth, stage.clientHeight);
    if (isFirst || isHome) {
      state.target.copy(home.target);
      state.distance = home.distance;
    }
    table.place();
  }
  function look() {
    const { crowd, section, chosen, isFading } = shown;
    crowd.paint(chosen, isFading);
    section.moved();
    ask();
  }

  startHands(stage, table, (x, y) => tapped(x, y));
  return {
    table,
    // The page's marks have to stand already. The bytes are those of a GLB.
    async show(data, bytes) {
      const model = await loadModel(bytes, data.pieces);
      const { root, bodies } = model;
      const scene = new THREE.Scene(), lamp = new THREE.DirectionalLight(0xffffff, 0.55);
      scene.add(root, new THREE.HemisphereLight(0xffffff, 0x9a9488, 0.75), lamp);
      scene.updateMatrixWorld();
      const crowd = startCrowd(model);
      const section = startSection(model, data.outline, crowd);
      const places = startPlaces(bodies, data.moves, data.outline, data.steps);
      const old = shown;
      shown = {
        scene, lamp, root, bodies, crowd, section, places, chosen: null, isFading: false,
        box: boxOf(model), marks: startMarks(data, places, root, camera, stage, section),
      };
      old?.crowd.end();
      old?.section.end();
      frame(!old);
    },
    // The same model with other marks.
    mark(data) {
      const { places, root, section } = shown;
      shown.marks = startMarks(data, places, root, camera, stage, section);
      ask();
    },
    // A still copy on another canvas: it is printed as well, which a 3D canvas is not.
    picture(sheet) {
      const { width, height } = sheet, { distance } = table.state;
      sharpen(FINENESS[0][0]);
      renderer.setSize(width, height, false);
      table.state.distance = fit(width, height);
      table.place();
      render(1);
      const pen = sheet.getContext("2d");
      pen.imageSmoothingQuality = "high";
      pen.drawImage(canvas, 0, 0, width, height);
      table.state.distance = distance;
    },
    // The view follows its room on the page.
    fill() {
      new ResizeObserver(resize).observe(stage);
      resize();
    },
    drawn: () => new Promise((done) => { told.push(done); ask(); }),
    pieceAt(x, y) {
      const edge = canvas.getBoundingClientRect();
      const ray = new THREE.Raycaster();
      ray.setFromCamera({
        x: 2 * (x - edge.left) / edge.width - 1, y: 1 - 2 * (y - edge.top) / edge.height,
      }, camera);
      return firstHit(ray, shown);
    },
    choose(index) { shown.chosen = index; look(); },
    fade(isOn) { shown.isFading = isOn; look(); },
    near(index) {
      const { root, places, bodies } = shown;
      table.about(root.localToWorld(places.middle(index)), Math.max(
        4 * bodies[index].radius, home.distance / 8,
      ));
    },
    travel(which, distance) { shown.places.travel(which, distance); ask(); },
    build(count) { shown.places.build(count); ask(); },
    spread(share) {
      shown.places.spread(share);
      if (share !== spread) table.zoom((1 + SPREAD_ROOM * share) / (1 + SPREAD_ROOM * spread));
      spread = share;
      ask();
    },
    cut(axis, share) { const away = shown.section.cut(axis, share); ask(); return away; },
    // What a tap on the view does.
    hands(answer) { tapped = answer; },
  };
}

// The piece that a ray meets first, of what is not cut away. The back of a face counts: where a
// piece is cut open, the ray is in it already.
function firstHit(ray, { root, bodies, section }) {
  const probe = new THREE.Mesh(undefined, new THREE.MeshBasicMaterial({ side: THREE.DoubleSide }));
  const ball = new THREE.Sphere();
  let best = null, nearest = Infinity;
  bodies.forEach((body, index) => {
    if (!body.isThere) return;
    ball.center.copy(body.middle).add(body.at).sub(body.home).applyMatrix4(root.matrixWorld);
    ball.radius = body.radius;
    if (!ray.ray.intersectsSphere(ball)) return;
    probe.geometry = body.shape.faces;
    probe.matrixWorld.copy(body.turn).setPosition(body.at).premultiply(root.matrixWorld);
    const hit = ray.intersectObject(probe, false).find((one) => !section.isCutAway(one.point));
    if (hit && hit.distance < nearest) [best, nearest] = [index, hit.distance];
  });
  return best;
}

// The box around all pieces in their own places, as the scene has it.
function boxOf({ root, bodies }) {
  const all = new THREE.Box3(), one = new THREE.Box3(), matrix = new THREE.Matrix4();
  for (const body of bodies) {
    matrix.copy(body.turn).setPosition(body.home).premultiply(root.matrixWorld);
    all.union(one.copy(body.shape.box).applyMatrix4(matrix));
  }
  return all;
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

const APART = 26; // pixels between marks that would lie on each other

// Marks of findings and the flag of the chosen piece, laid over the picture.
function startMarks(data, places, root, camera, stage, section) {
  const buttons = [...document.querySelectorAll("[data-finding]")];
  const flag = document.getElementById("flag");
  let laid = []; // where marks lie in this picture

  function lay(element, point) {
    const world = root.localToWorld(point);
    const isAway = element !== flag && section.isCutAway(world);
    world.project(camera);
    const x = (world.x + 1) / 2, y = (1 - world.y) / 2;
    element.hidden = isAway || world.z > 1 || x < 0 || x > 1 || y < 0 || y > 1;
    if (element.hidden) return;
    // Kept inside the view: a flag at the edge would be cut off.
    const top = y * stage.clientHeight;
    let left = Math.min(x * stage.clientWidth, stage.clientWidth - (element === flag ? flag.offsetWidth : 0));
    if (element !== flag) {
      while (laid.some(([l, t]) => Math.hypot(l - left, t - top) < APART - 1)) left += APART;
      laid.push([left, top]);
    }
    element.style.transform = `translate(${left.toFixed(1)}px, ${top.toFixed(1)}px)`;
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
    laid = [];
    buttons.forEach((button) => {
      const point = placeOf(data.findings[Number(button.dataset.finding)]);
      if (point) lay(button, point);
    });
    flag.hidden = chosen === null;
    if (chosen !== null) lay(flag, places.middle(chosen));
  };
}
