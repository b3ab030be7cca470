// The view of the book, in which one model after another is shown by the same camera.

function startKeptView() {
  const stage = document.getElementById("stage");
  const canvas = document.getElementById("canvas");
  const renderer = new THREE.WebGLRenderer({ canvas, alpha: true, antialias: true, stencil: true });
  renderer.outputEncoding = THREE.sRGBEncoding;
  renderer.localClippingEnabled = true;
  const camera = new THREE.PerspectiveCamera(28, 1, 0.01, 100);
  const home = { turn: 30, rise: 20, target: new THREE.Vector3(), distance: 1 };
  const table = turntable(camera, home, ask);
  let shown = null; // the model in view, with all that belongs to it
  let tapped = () => {};
  let isAsked = false, spread = 0;
  const told = []; // who waits until the next picture stands

  function draw() {
    isAsked = false;
    if (!shown) return;
    const { scene, lamp, section, marks } = shown;
    scene.updateMatrixWorld();
    camera.updateMatrixWorld();
    lamp.position.set(...LAMP).multiplyScalar(table.state.distance);
    camera.localToWorld(lamp.position).sub(table.state.target);
    section.show();
    renderer.render(scene, camera);
    marks(shown.chosen);
    for (const tell of told.splice(0)) tell();
  }
  function ask() {
    if (isAsked) return;
    isAsked = true;
    // A page that is not in front is given no frames, but is to be found drawn.
    if (document.hidden) setTimeout(draw);
    else requestAnimationFrame(draw);
  }
  function fit() {
    const high = Math.tan(THREE.MathUtils.degToRad(camera.fov / 2));
    return FIT_ROOM * Math.max(...[[0, 0], [30, 20], [90, 0]].map(
      ([turn, rise]) => distanceFor(shown.box, turn, rise, high * camera.aspect, high),
    ));
  }
  function resize() {
    const width = stage.clientWidth, height = stage.clientHeight;
    if (!width || !height) return;
    camera.aspect = width / height;
    renderer.setPixelRatio(Math.min(window.devicePixelRatio || 1, 2));
    renderer.setSize(width, height, false);
    if (!shown) return;
    const was = home.distance;
    home.distance = fit();
    table.state.distance *= home.distance / was;
    table.place();
  }
  // A camera that was moved stays where it is; one that was not follows the unit.
  function frame(isFirst) {
    const { state } = table;
    const isHome = state.distance === home.distance && state.target.equals(home.target);
    shown.box.getCenter(home.target);
    home.distance = fit();
    if (isFirst || isHome) {
      state.target.copy(home.target);
      state.distance = home.distance;
    }
    table.place();
  }
  function look() {
    const { bodies, chosen, isFading } = shown;
    bodies.forEach((body, index) => {
      paint(body, index === chosen, isFading && chosen !== null && index !== chosen);
    });
    ask();
  }
  function clear(old) {
    old.scene.traverse((node) => {
      node.geometry?.dispose();
      node.material?.map?.dispose();
      node.material?.dispose();
    });
  }

  new ResizeObserver(resize).observe(stage);
  resize();
  startHands(stage, table, (x, y) => tapped(x, y));
  return {
    table,
    // The page's marks have to stand already. The bytes are those of a GLB.
    async show(data, bytes) {
      const gltf = await new Promise((done, failed) => {
        new THREE.GLTFLoader().parse(bytes, "", done, failed);
      });
      const { scene: unit, root, bodies } = dressed(gltf, data.pieces);
      const scene = new THREE.Scene();
      scene.add(unit);
      scene.add(new THREE.HemisphereLight(0xffffff, 0x9a9488, 0.75));
      const lamp = new THREE.DirectionalLight(0xffffff, 0.55);
      scene.add(lamp);
      scene.updateMatrixWorld();
      const section = startSection(scene, bodies, data.outline, renderer);
      const places = startPlaces(bodies, data.moves, data.outline, data.steps);
      const old = shown;
      shown = {
        scene, lamp, root, bodies, section, places, chosen: null, isFading: false,
        box: new THREE.Box3().setFromObject(unit),
        marks: startMarks(data, places, root, camera, stage, section),
      };
      if (old) clear(old);
      frame(!old);
    },
    // The same model with other marks.
    mark(data) {
      const { places, root, section } = shown;
      shown.marks = startMarks(data, places, root, camera, stage, section);
      ask();
    },
    drawn: () => new Promise((done) => { told.push(done); ask(); }),
    pieceAt(x, y) {
      const { bodies, section } = shown;
      const frame = canvas.getBoundingClientRect();
      const ray = new THREE.Raycaster();
      ray.setFromCamera({
        x: 2 * (x - frame.left) / frame.width - 1, y: 1 - 2 * (y - frame.top) / frame.height,
      }, camera);
      const hit = ray.intersectObjects(bodies.map((body) => body.mesh).filter((mesh) => mesh.visible), false)
        .find((one) => !section.isCutAway(one.point));
      return hit ? bodies.findIndex((body) => body.mesh === hit.object) : null;
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
    hands(answer) { tapped = answer; },
  };
}
