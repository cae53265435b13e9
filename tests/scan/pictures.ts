/** Pictures of labels as a camera would see them, made by arithmetic alone: for reader tests and the fake camera. */
import { labelModules } from './label-modules';
import type { LabelModules, LabelSymbology } from './label-modules';
import { encodePng } from './png';
import { blurred } from './optics';
import type { Pixels } from './png';

export type { LabelSymbology } from './label-modules';
export type { Pixels } from './png';

export interface PictureOptions {
  /** What the label says. `]C1`, `]d2` or `]Q3` ahead makes a GS1 symbol, with GS for FNC1. */
  readonly payload: string;
  readonly symbology: LabelSymbology;
  readonly width?: number;
  readonly height?: number;
  /** Pixels to a module; 4 unless told. */
  readonly scale?: number;
  /** Degrees in the plane of the picture, clockwise. */
  readonly rotate?: number;
  /** Degrees of turn about the upright and the level axis: the far side shrinks. */
  readonly yaw?: number;
  readonly pitch?: number;
  /** Gaussian sigma in pixels; 0.6 unless told, as a lens gives. */
  readonly blur?: number;
  /** Length in pixels of a smear, and its direction: degrees from the level, clockwise. */
  readonly motion?: number;
  readonly motionAngle?: number;
  /** Degrees of arc that the label's width covers on a tube; 0 = flat. */
  readonly curve?: number;
  /** How much darker the left edge of the picture is than the right one, as part of the full light, 0 to 0.9. */
  readonly shade?: number;
  /** White on black. */
  readonly inverted?: boolean;
  /** Standard deviation of sensor noise in grey levels; 4 unless told. */
  readonly noise?: number;
  /** 1 = black on white; 0.3 = greys 30 % of the range apart. */
  readonly contrast?: number;
  /** Part of the label's width that is washed out by a glare spot, 0 to 1. */
  readonly glare?: number;
  /** How many dark and light patches lie on the table around the label. */
  readonly clutter?: number;
  /** Centre of the label, as parts of width and height. */
  readonly at?: readonly [number, number];
  /** Same seed, same picture. */
  readonly seed?: number;
}

/** Small deterministic generator (mulberry32), so that a picture can be made again. */
export function seeded(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

type Full = Required<PictureOptions>;

function withDefaults(options: PictureOptions): Full {
  return {
    width: 1280,
    height: 720,
    scale: 4,
    rotate: 0,
    yaw: 0,
    pitch: 0,
    blur: 0.6,
    motion: 0,
    motionAngle: 0,
    curve: 0,
    shade: 0,
    inverted: false,
    noise: 4,
    contrast: 1,
    glare: 0,
    clutter: 12,
    at: [0.5, 0.5],
    seed: 1,
    ...options,
  };
}

/** The table: an even grey with patches of other greys, some of them as dark as bars. */
function paintTable(grey: Float32Array, full: Full, random: () => number): void {
  grey.fill(120 + 40 * random());
  for (let patch = 0; patch < full.clutter; patch += 1) {
    const width = 10 + random() * 160;
    const height = 10 + random() * 160;
    const left = Math.floor(random() * full.width - width / 2);
    const top = Math.floor(random() * full.height - height / 2);
    const level = random() * 255;
    for (let y = Math.max(0, top); y < Math.min(full.height, top + height); y += 1) {
      const row = y * full.width;
      grey.fill(level, row + Math.max(0, left), row + Math.max(0, Math.min(full.width, Math.floor(left + width))));
    }
  }
}

/** Paper above and below the symbol, in modules. */
const MARGIN = 4;

/** Grey of the label at a place measured in modules from its centre; null beside the paper. */
function greyAt(label: LabelModules, full: Full, [u, v]: readonly [number, number]): number | null {
  const x = Math.floor(u + label.columns / 2);
  if (Number.isNaN(x)) return null;
  const height = label.rows * label.rowHeight;
  const down = v + height / 2;
  if (x < 0 || x >= label.columns || down < -MARGIN || down >= height + MARGIN) return null;
  const y = Math.floor(down / label.rowHeight);
  const dark = y >= 0 && y < label.rows && label.dark[y * label.columns + x] === 1;
  const half = (full.inverted ? -110 : 110) * full.contrast;
  return 130 + (dark ? -half : half);
}

/** Where on a label that is bent round a tube a straight look falls; not a number beside the tube. */
function unbent(u: number, full: Full, label: LabelModules): number {
  if (full.curve === 0) return u;
  const radius = label.columns / ((full.curve * Math.PI) / 180);
  return radius * Math.asin(u / radius);
}

const SAMPLES = [-1 / 3, 0, 1 / 3] as const;

/** Lays the label on the table: turned in the plane, then tilted, with nine samples to a pixel. */
function paintLabel(grey: Float32Array, full: Full, label: LabelModules): void {
  const turn = (full.rotate * Math.PI) / 180;
  const yaw = Math.tan((full.yaw * Math.PI) / 180) / full.width;
  const pitch = Math.tan((full.pitch * Math.PI) / 180) / full.width;
  const [cosTurn, sinTurn] = [Math.cos(turn), Math.sin(turn)];
  const [centreX, centreY] = [full.at[0] * full.width, full.at[1] * full.height];
  const [squeezeX, squeezeY] = [Math.cos((full.yaw * Math.PI) / 180), Math.cos((full.pitch * Math.PI) / 180)];
  // Nothing of the label can lie farther out than this, a near edge drawn large by the tilt included.
  const flat = Math.hypot(label.columns, label.rows * label.rowHeight + 2 * MARGIN) * full.scale;
  const reach = Math.ceil(full.yaw === 0 && full.pitch === 0 ? flat / 2 + 2 : flat);
  const [top, bottom] = [Math.max(0, Math.floor(centreY - reach)), Math.min(full.height, centreY + reach)];
  const [left, right] = [Math.max(0, Math.floor(centreX - reach)), Math.min(full.width, centreX + reach)];
  for (let y = top; y < bottom; y += 1) {
    for (let x = left; x < right; x += 1) {
      let sum = 0;
      let hits = 0;
      for (const dy of SAMPLES) {
        for (const dx of SAMPLES) {
          const px = x + 0.5 + dx - centreX;
          const py = y + 0.5 + dy - centreY;
          const depth = 1 - px * yaw - py * pitch;
          const flatX = px / squeezeX / depth;
          const flatY = py / squeezeY / depth;
          const u = (flatX * cosTurn + flatY * sinTurn) / full.scale;
          const v = (flatY * cosTurn - flatX * sinTurn) / full.scale;
          const level = depth > 0.05 ? greyAt(label, full, [unbent(u, full, label), v]) : null;
          if (level === null) continue;
          sum += level;
          hits += 1;
        }
      }
      if (hits === 0) continue;
      const at = y * full.width + x;
      grey[at] = (sum + (9 - hits) * (grey[at] ?? 0)) / 9;
    }
  }
}

/** A bright spot across the label, fading to its rim. */
function paintGlare(grey: Float32Array, full: Full, label: LabelModules): void {
  const radius = (full.glare * label.columns * full.scale) / 2;
  if (radius <= 0) return;
  const [centreX, centreY] = [full.at[0] * full.width + radius / 2, full.at[1] * full.height];
  for (let y = 0; y < full.height; y += 1) {
    for (let x = 0; x < full.width; x += 1) {
      const far = Math.hypot(x - centreX, y - centreY) / radius;
      if (far < 1) grey[y * full.width + x] = (grey[y * full.width + x] ?? 0) + 300 * (1 - far * far);
    }
  }
}

/** Light that comes from the right: every row goes from the shade into the full light. */
function paintShade(grey: Float32Array, full: Full): void {
  if (full.shade === 0) return;
  const light = Float32Array.from({ length: full.width }, (_, x) => 1 - full.shade * (1 - x / full.width));
  for (let at = 0; at < grey.length; at += 1) grey[at] = (grey[at] ?? 0) * (light[at % full.width] ?? 1);
}

/** Sum of uniforms: near enough to a bell for sensor noise, and quick. */
function bell(random: () => number): number {
  return (random() + random() + random() - 1.5) * 2;
}

/** A frame of a camera that looks at one label. */
export function labelPicture(options: PictureOptions): Promise<Pixels> {
  const full = withDefaults(options);
  const random = seeded(full.seed);
  const label = labelModules(full.payload, full.symbology);
  const table = new Float32Array(full.width * full.height);
  paintTable(table, full, random);
  paintLabel(table, full, label);
  paintGlare(table, full, label);
  paintShade(table, full);
  const grey = blurred(table, full);
  const rgba = new Uint8ClampedArray(grey.length * 4);
  const words = new Uint32Array(rgba.buffer);
  for (let at = 0; at < grey.length; at += 1) {
    const noisy = (grey[at] ?? 0) + (full.noise > 0 ? full.noise * bell(random) : 0);
    const level = Math.max(0, Math.min(255, Math.round(noisy)));
    words[at] = 0xff000000 | (level << 16) | (level << 8) | level;
  }
  return Promise.resolve({ width: full.width, height: full.height, rgba });
}

/** The same as a PNG file. */
export async function labelPng(options: PictureOptions): Promise<Uint8Array> {
  return encodePng(await labelPicture(options));
}

/** A frame with no label at all: the table, its patches, and noise. */
export function emptyPicture(seed = 1, size: { width?: number; height?: number } = {}): Promise<Pixels> {
  return labelPicture({ ...size, payload: '0', symbology: 'code39', seed, clutter: 40, noise: 25, at: [-4, -4] });
}
