// The view in the round: bodies that can be turned, coloured by stuff or by use, drawn only when something changes.
import {OrbitControls, PerspectiveCamera, Raycaster, Scene, Spherical, Vector2, Vector3, WebGLRenderer} from "./vendor/three.js";
import {ballOf, bodiesOf, wiresOf} from "./round_bodies.js";
import {css, dress, lookOf, palette} from "./round_looks.js";
import {WORDS, made, setWords, spoken, stageOf, tellLegend, wordsOn} from "./round_stage.js";

const CORNERS = {"south-west": -135, "south-east": -45, "north-east": 45, "north-west": 135};
const RISE = 28;
const FIELD = 30;
const starts = (long, short) => long === short || long.startsWith(`${short}.`);

/**
 * Shows a view in the round in an element.
 *
 * `data` is {round, uses: {part: {use, verdict, words}}, by: "stuff" or "use", words}. Gives {highlight(part),
 * colourBy("stuff" | "use"), dispose()}; null, with a message in the element, where the browser cannot draw it.
 * Tells which part is pointed at by the event "part".
 */
export function show(host, data) {
  const words = {...WORDS, ...data.words};
  if (!document.createElement("canvas").getContext("webgl2")) {
    host.replaceChildren(made("p", {class: "round-nothing", role: "status"}, words.nothing));
    host.classList.add("round-gone");
    return null;
  }
  host.classList.remove("round-gone");
  host.replaceChildren();
  return new View(host, data, words).handle;
}

class View {
  constructor(host, data, words) {
    Object.assign(this, {host, words, round: data.round, uses: data.uses || {}});
    this.state = {by: data.by === "use" ? "use" : "stuff", through: false, lit: ""};
    this.bodies = bodiesOf(data.round);
    this.wires = wiresOf(data.round);
    this.ball = ballOf(data.round);
    this.stage = stageOf(host, data, words, {
      colourBy: (by) => this.colourBy(by), seeThrough: (on) => { this.state.through = on; this.paint(); },
      turn: (across, up) => this.turn(across, up), nearer: (share) => this.nearer(share), again: () => this.again(),
      point: (part) => this.point(part),
    });
    this.scene = new Scene();
    this.bodies.forEach(({mesh, edges}) => this.scene.add(mesh, edges));
    this.scene.add(this.wires);
    this.renderer = new WebGLRenderer({canvas: this.stage.canvas, antialias: true, alpha: true});
    this.camera = new PerspectiveCamera(FIELD, 1, this.ball.size / 50, this.ball.size * 40);
    this.camera.up.set(0, 0, 1);
    this.controls = new OrbitControls(this.camera, this.stage.canvas);
    Object.assign(this.controls, {enableDamping: false, enableZoom: false, zoomToCursor: true, minDistance: this.ball.size / 8, maxDistance: this.ball.size * 12, maxPolarAngle: Math.PI * 0.6});
    this.stage.canvas.style.touchAction = "pan-y"; // the page still scrolls under a finger
    this.listen();
    this.resize();
    this.again();
    this.colourBy(this.state.by);
    this.handle = {highlight: (part) => this.highlight(part), colourBy: (by) => this.colourBy(by), dispose: () => this.dispose()};
  }

  listen() {
    const {canvas} = this.stage;
    this.ends = [];
    const on = (target, kind, does) => {
      target.addEventListener(kind, does);
      this.ends.push(() => target.removeEventListener(kind, does));
    };
    on(this.controls, "change", () => this.draw());
    on(canvas, "keydown", (event) => this.key(event));
    on(canvas, "focus", () => { this.controls.enableZoom = true; });
    on(canvas, "blur", () => { this.controls.enableZoom = false; });
    on(canvas, "pointerdown", () => canvas.focus({preventScroll: true}));
    on(canvas, "pointermove", (event) => { if (!event.buttons) this.hover(event); });
    on(canvas, "pointerleave", () => { this.stage.tip.hidden = true; this.point(""); });
    on(canvas, "click", (event) => this.hover(event));
    on(canvas, "webglcontextlost", (event) => { event.preventDefault(); this.lose(); });
    for (const wish of ["(prefers-color-scheme: dark)", "(prefers-contrast: more)"]) on(matchMedia(wish), "change", () => this.paint());
    const watch = new ResizeObserver(() => this.resize());
    watch.observe(this.stage.stage);
    this.ends.push(() => watch.disconnect());
  }

  colourBy(by) {
    this.state.by = by === "use" ? "use" : "stuff";
    this.stage.choose(this.state.by);
    this.paint();
  }

  /** Puts the colours of the page, as they are now, on everything. */
  paint() {
    const {by, through, lit} = this.state;
    this.colours = palette(this.host);
    const parts = this.meant(lit);
    for (const body of this.bodies) dress(body, lookOf(body.stuff, this.uses[body.part], by, through), this.colours, parts.has(body.part), this.ratio);
    this.wires.material.color.set(css(this.colours.soft).replaceAll(" ", ","));
    tellLegend(this.stage.legend, this.bodies, this.uses, by, this.colours);
    this.told = wordsOn(this.round, this.bodies, this.uses, by);
    this.draw();
  }

  /** The parts that a key means: itself, else those in it, else the nearest that it is in. */
  meant(part) {
    if (!part) return new Set();
    const keys = [...new Set(this.bodies.map((body) => body.part))];
    if (keys.includes(part)) return new Set([part]);
    const inside = keys.filter((key) => starts(key, part));
    if (inside.length) return new Set(inside);
    const round = keys.filter((key) => key && starts(part, key)).sort((one, other) => other.length - one.length);
    return new Set(round.slice(0, 1));
  }

  highlight(part) {
    if (part === this.state.lit) return;
    this.state.lit = part || "";
    this.paint();
  }

  /** Lights a part and tells the page of it. */
  point(part) {
    if (part === this.state.lit) return;
    this.highlight(part);
    this.host.dispatchEvent(new CustomEvent("part", {detail: part, bubbles: true}));
  }

  hover(event) {
    const box = this.stage.canvas.getBoundingClientRect();
    const [x, y] = [event.clientX - box.left, event.clientY - box.top];
    const ray = new Raycaster();
    ray.setFromCamera(new Vector2((2 * x) / box.width - 1, 1 - (2 * y) / box.height), this.camera);
    const hits = ray.intersectObjects(this.bodies.map((body) => body.mesh), false);
    const hit = hits.find((one) => one.object.material.opacity > 0.3) || hits[0];
    const part = hit?.object.userData.body.part || "";
    const {tip} = this.stage;
    tip.hidden = !part;
    if (part) {
      tip.textContent = [spoken(part), this.uses[part]?.words].filter(Boolean).join(": ");
      tip.style.left = `${Math.min(x + 14, Math.max(4, box.width - 220))}px`;
      tip.style.top = `${y > box.height - 90 ? y - 60 : y + 16}px`;
    }
    this.point(part);
  }

  key(event) {
    const does = {
      ArrowLeft: () => this.turn(-10, 0), ArrowRight: () => this.turn(10, 0), ArrowUp: () => this.turn(0, 8), ArrowDown: () => this.turn(0, -8),
      "+": () => this.nearer(0.85), "=": () => this.nearer(0.85), "-": () => this.nearer(1.18), "\u2212": () => this.nearer(1.18), 0: () => this.again(),
    }[event.key];
    if (!does || event.ctrlKey || event.metaKey || event.altKey) return;
    event.preventDefault();
    this.stage.tip.hidden = true;
    does();
  }

  /** Moves the eye round what it looks at: degrees to the right and upward. */
  turn(across, up) {
    const way = this.way();
    way.theta += (across * Math.PI) / 180;
    way.phi = Math.min(Math.max(way.phi - (up * Math.PI) / 180, 0.02), this.controls.maxPolarAngle);
    this.look(way);
  }

  nearer(share) {
    const way = this.way();
    way.radius = Math.min(Math.max(way.radius * share, this.controls.minDistance), this.controls.maxDistance);
    this.look(way);
  }

  /** Back to the corner the view is first looked at from, all of it in sight. */
  again() {
    const half = (FIELD * Math.PI) / 360;
    const wide = Math.atan(Math.tan(half) * Math.min(1, this.camera.aspect));
    this.controls.target.set(...this.ball.middle);
    const round = (CORNERS[this.round.seen_from] * Math.PI) / 180;
    const room = this.camera.aspect < 1 ? 1 : 0.84; // a wide picture may cut the ball above and below
    this.look(new Spherical((room * this.ball.size) / Math.sin(wide), ((90 - RISE) * Math.PI) / 180, round));
  }

  /** Where the eye stands: distance, angle from straight up, angle round from east by north. */
  way() {
    const off = this.camera.position.clone().sub(this.controls.target);
    const radius = off.length();
    return new Spherical(radius, Math.acos(off.z / radius), Math.atan2(off.y, off.x));
  }

  look({radius, phi, theta}) {
    const off = new Vector3(Math.sin(phi) * Math.cos(theta), Math.sin(phi) * Math.sin(theta), Math.cos(phi));
    this.camera.position.copy(this.controls.target).addScaledVector(off, radius);
    this.controls.update();
    this.draw();
  }

  resize() {
    const {clientWidth: wide, clientHeight: tall} = this.stage.stage;
    if (!wide || !tall) return;
    this.ratio = Math.min(window.devicePixelRatio || 1, 2);
    this.renderer.setPixelRatio(this.ratio);
    this.renderer.setSize(wide, tall, false);
    this.camera.aspect = wide / tall;
    this.camera.updateProjectionMatrix();
    this.draw();
  }

  /** Asks for one picture; nothing moves between two of them. */
  draw() {
    if (this.asked || this.over) return;
    this.asked = requestAnimationFrame(() => {
      this.asked = 0;
      this.renderer.render(this.scene, this.camera);
      if (this.told) setWords(this.stage.labels, this.told, (place) => this.flat(place), this.colours);
    });
  }

  flat(place) {
    const spot = new Vector3(...place).project(this.camera);
    const {clientWidth: wide, clientHeight: tall} = this.stage.stage;
    const [x, y] = [((spot.x + 1) / 2) * wide, ((1 - spot.y) / 2) * tall];
    return spot.z < 1 && x > 8 && y > 8 && x < wide - 8 && y < tall - 8 ? [x, y] : null;
  }

  lose() {
    this.dispose();
    this.host.append(made("p", {class: "round-nothing", role: "status"}, this.words.lost));
    this.host.classList.add("round-gone");
  }

  dispose() {
    if (this.over) return;
    this.over = true;
    cancelAnimationFrame(this.asked);
    this.ends.forEach((end) => end());
    this.controls.dispose();
    for (const each of [...this.bodies.flatMap(({mesh, edges}) => [mesh, edges]), this.wires]) {
      each.geometry.dispose();
      each.material.dispose();
    }
    this.renderer.dispose();
    this.host.replaceChildren();
  }
}
