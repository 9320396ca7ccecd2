// What bodies look like: colours of the page by what things are made of, or by how much of its limit a part uses.
import {Color, MeshBasicMaterial} from "./vendor/three.js";

const FRAME = new Set(["timber", "sheet", "membrane"]);
const BEARS = new Set(["timber", "sheet", "clear", "metal", "seal", "membrane", "ground", "solid"]);
const PLAIN = {role: "stonepale", line: "stone"};

/** role laid over another with a share, how much it hides, and the colour of its edges: as the still drawing has it. */
const STUFFS = {
  timber: {role: "timberpale", line: "timber"},
  sheet: {role: "sheetpale", line: "timber"},
  clear: {role: "waterpale", line: "ink", opacity: 0.42},
  water: {role: "water", share: 0.4, over: "waterpale", line: "water", opacity: 0.6},
  membrane: {role: "stone", share: 0.35, over: "stonepale", line: "soft"},
  ground: {role: "stonepale", line: "stone"},
  metal: {role: "soft", line: "ink"},
  seal: {role: "soft", share: 0.5, line: "ink"},
  outline: {role: "sheet", line: "soft", opacity: 0.22},
};
const STUFF_WORDS = {
  timber: "timber", sheet: "sheathing", clear: "clear sheet", water: "water", membrane: "lining",
  ground: "slab or ground", metal: "metal", seal: "seal", outline: "bare shell",
};
const STEPS = {
  little: {role: "water", share: 0.16, line: "ink", words: "sound, up to 50 % used"},
  sound: {role: "water", share: 0.5, line: "ink", words: "sound, over 50 % used"},
  near: {role: "rust", share: 0.28, line: "ink", stripes: "rust", gap: 11, words: "near its limit"},
  fails: {role: "rust", line: "ink", stripes: "sheet", gap: 7, words: "fails"},
  unproven: {role: "sheet", line: "soft", stripes: "soft", gap: 9, words: "unproven"},
  unjudged: {role: "stonepale", share: 0.5, line: "stone", words: "not judged"},
};

/** The step of the scale a part stands on. */
export function stepOf(use) {
  if (!use) return "unjudged";
  if (use.verdict !== "sound") return use.verdict;
  return use.use !== null && use.use <= 0.5 ? "little" : "sound";
}

/** The look of a body, its edges' role among it. */
export function lookOf(stuff, use, by, seenThrough) {
  const judged = by === "use" && BEARS.has(stuff);
  const step = judged ? stepOf(use) : "";
  const look = {opacity: 1, share: 1, over: "sheet", ...(judged ? STEPS[step] : STUFFS[stuff] || PLAIN)};
  if (judged && stuff === "clear") look.opacity = 0.75;
  if (seenThrough && FRAME.has(stuff) && step !== "near" && step !== "fails") look.opacity = 0.14;
  return look;
}

/** The rows of the legend: those that occur, each with its look. */
export function legendOf(kinds, by) {
  const there = new Set(kinds);
  const [table, words] = by === "use" ? [STEPS, (key) => STEPS[key].words] : [STUFFS, (key) => STUFF_WORDS[key]];
  return Object.keys(table).filter((key) => there.has(key)).map((key) => ({words: words(key), look: {share: 1, over: "sheet", ...table[key]}}));
}

/** Reads the colours of the page, as they stand now. */
export function palette(host) {
  const probe = document.createElement("span");
  host.append(probe);
  const read = (role) => {
    probe.style.color = `var(--${role})`;
    const found = getComputedStyle(probe).color.match(/[\d.]+/g) || [0, 0, 0];
    return found.slice(0, 3).map(Number);
  };
  const roles = ["sheet", "paper", "ink", "soft", "line", "water", "waterpale", "timber", "timberpale", "sheetpale", "rust", "stone", "stonepale", "focus"];
  const found = Object.fromEntries(roles.map((role) => [role, read(role)]));
  probe.remove();
  return found;
}

export const mixed = (one, other, share) => one.map((part, at) => share * part + (1 - share) * other[at]);
const filled = (look, colours) => mixed(colours[look.role], colours[look.over || "sheet"], look.share ?? 1);
const painted = (colour, rgb) => colour.setRGB(rgb[0] / 255, rgb[1] / 255, rgb[2] / 255, "srgb");
export const css = (rgb) => `rgb(${rgb.map(Math.round).join(" ")})`;

/** A sample of a look for the legend. */
export function sample(look, colours) {
  const box = document.createElement("span");
  box.className = "round-sample";
  const ground = css(filled(look, colours));
  box.style.background = look.stripes
    ? `repeating-linear-gradient(135deg,${ground} 0 4px,${css(colours[look.stripes])} 4px 5.5px)`
    : ground;
  box.style.borderColor = css(colours[look.line]);
  return box;
}

/** A material that takes a look; its stripes lie on the screen, so that they are seen from every side. */
export function material() {
  const made = new MeshBasicMaterial({vertexColors: true, polygonOffset: true, polygonOffsetFactor: 1, polygonOffsetUnits: 1});
  const stripes = {colour: {value: new Color()}, gap: {value: 0}};
  made.userData = stripes;
  made.onBeforeCompile = (shader) => {
    shader.uniforms.stripeColour = stripes.colour;
    shader.uniforms.stripeGap = stripes.gap;
    shader.fragmentShader = `uniform vec3 stripeColour;\nuniform float stripeGap;\n${shader.fragmentShader}`.replace(
      "#include <opaque_fragment>",
      "if (stripeGap > 0.0 && mod(gl_FragCoord.x + gl_FragCoord.y, stripeGap) < 1.6) outgoingLight = stripeColour;\n#include <opaque_fragment>",
    );
  };
  return made;
}

/** Puts a look on a body and its edges. */
export function dress(body, look, colours, lit, ratio) {
  const fill = lit ? mixed(colours.focus, filled(look, colours), 0.45) : filled(look, colours);
  const {material: skin} = body.mesh;
  painted(skin.color, fill);
  painted(skin.userData.colour.value, colours[look.stripes || "ink"]);
  skin.userData.gap.value = look.stripes ? look.gap * ratio : 0;
  const opacity = lit ? Math.max(look.opacity ?? 1, 0.5) : look.opacity ?? 1;
  const through = opacity < 1;
  if (skin.transparent !== through) skin.needsUpdate = true;
  Object.assign(skin, {opacity, transparent: through, depthWrite: !through});
  skin.polygonOffsetFactor = through ? 2 : 1;
  painted(body.edges.material.color, lit ? colours.focus : colours[look.line]);
  Object.assign(body.edges.material, {transparent: through && !lit, opacity: through && !lit ? 0.55 : 1});
}
