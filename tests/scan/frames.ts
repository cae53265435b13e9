/** Made camera frames for measuring the readers: what each label says, and under which conditions it is seen. */
import { makeBadgePayload } from '../../src/scan/symbology/badge';
import { makeCardPayload } from '../../src/scan/symbology/card';
import { makeEnvelope } from '../../src/scan/symbology/envelope';
import { labelModules } from './label-modules';
import type { LabelSymbology } from './label-modules';
import { seeded } from './pictures';
import type { PictureOptions } from './pictures';

export const FRAME_KINDS = [
  'code128',
  'gs1-128',
  'code39',
  'dataMatrix',
  'gs1-dataMatrix',
  'format-06',
  'qr',
  'card',
] as const;
export type FrameKind = (typeof FRAME_KINDS)[number];

export interface FrameSpec {
  readonly kind: FrameKind;
  /** Which row of the sweep, or the name of a random class. */
  readonly condition: string;
  readonly picture: PictureOptions;
}

type Random = () => number;
const pick = <T>(random: Random, all: readonly [T, ...T[]]): T => all[Math.floor(random() * all.length)] ?? all[0];
const text = (random: Random, alphabet: string, length: number): string =>
  Array.from({ length }, () => alphabet.charAt(Math.floor(random() * alphabet.length))).join('');
const LETTERS = 'ABCDEFGHJKLMNPQRSTUVWXYZ';
const DIGITS = '0123456789';
const CROCKFORD = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';

const serial = (random: Random): string =>
  `${text(random, LETTERS, 3)}-${text(random, DIGITS, 4)}-${text(random, DIGITS, 3)}`;

/** What a label of this kind says. GS1 marks carry the AIM identifier in front, which asks the encoder for FNC1. */
function payloadOf(kind: FrameKind, random: Random): string {
  switch (kind) {
    case 'code128':
    case 'dataMatrix':
      return serial(random);
    case 'code39':
      return `${text(random, LETTERS, 2)}-${text(random, DIGITS, 3)}-${text(random, DIGITS, 3)}`;
    case 'gs1-128':
      return pick(random, ['0109501101530003', `8004${text(random, DIGITS, 10)}`, `8004${serial(random)}`]).replace(
        /^/,
        ']C1',
      );
    case 'gs1-dataMatrix':
      return `]d2010950110153000321${text(random, LETTERS + DIGITS, 8)}\u001d10${text(random, DIGITS, 4)}`;
    case 'format-06':
      return makeEnvelope([
        {
          format: '06',
          fields: [`17V${text(random, DIGITS, 5)}`, `1P${text(random, DIGITS, 4)}`, `S${text(random, DIGITS, 6)}`],
        },
      ]);
    case 'qr':
      return makeBadgePayload(text(random, CROCKFORD, 16));
    case 'card':
      return makeCardPayload({ name: 'count', count: Math.floor(random() * 100), noun: 'stows' });
  }
}

const SYMBOLOGY: Readonly<Record<FrameKind, LabelSymbology>> = {
  code128: 'code128',
  'gs1-128': 'code128',
  code39: 'code39',
  dataMatrix: 'dataMatrix',
  'gs1-dataMatrix': 'dataMatrix',
  'format-06': 'dataMatrix',
  qr: 'qr',
  card: 'qr',
};

type Conditions = Partial<PictureOptions>;
const each = (name: keyof PictureOptions, values: readonly number[]): readonly Conditions[] =>
  values.map((value) => ({ [name]: value }));

/** One thing varied at a time, the rest at 3 px to a module, blur 0.6 px, noise 4, clutter: sixty conditions. */
const SWEEP: readonly Conditions[] = [
  ...each('scale', [1, 1.25, 1.5, 2, 2.5, 3, 4, 5]),
  ...each('rotate', [0, 5, 10, 15, 20, 30, 45, 60, 75, 90, 135, 180]),
  ...each('yaw', [15, 30, 45, 55, 65]),
  ...each('pitch', [30, 45, 60]),
  ...each('blur', [0.5, 1, 1.5, 2, 3, 4]),
  ...each('motion', [2, 4, 6, 8, 12]),
  ...each('contrast', [0.5, 0.3, 0.2, 0.1, 0.05]),
  ...each('noise', [10, 20, 40, 60]),
  ...each('glare', [0.03, 0.1, 0.2, 0.3]),
  ...each('curve', [30, 60, 90, 120, 150]),
  ...each('shade', [0.5, 0.8]),
  { inverted: true },
];

const between = (random: Random, low: number, high: number): number => low + (high - low) * random();
/** Mostly nothing, sometimes up to `high`. */
const sometimes = (random: Random, share: number, [low, high]: readonly [number, number]): number =>
  random() < share ? between(random, low, high) : 0;

/** What a rigger can be asked for: near enough, still, in fair light; at any angle in the plane. */
function good(random: Random): Conditions {
  return {
    scale: between(random, 3, 5),
    rotate: between(random, 0, 360),
    blur: between(random, 0, 1),
    contrast: between(random, 0.3, 1),
    noise: between(random, 0, 6),
  };
}

/** Everything at once, as it comes on a table. */
function mixed(random: Random): Conditions {
  return {
    scale: between(random, 1.5, 5),
    rotate: between(random, 0, 360),
    yaw: sometimes(random, 0.4, [-45, 45]),
    pitch: sometimes(random, 0.4, [-45, 45]),
    blur: between(random, 0.3, 1.8),
    motion: sometimes(random, 0.25, [1, 7]),
    motionAngle: between(random, 0, 180),
    contrast: between(random, 0.15, 1),
    noise: between(random, 1, 18),
    glare: sometimes(random, 0.2, [0.03, 0.25]),
    curve: sometimes(random, 0.25, [20, 120]),
    shade: sometimes(random, 0.3, [0.2, 0.8]),
    clutter: Math.floor(between(random, 0, 30)),
  };
}

export const FRAME_CLASSES = ['sweep', 'good', 'mixed'] as const;
export type FrameClass = (typeof FRAME_CLASSES)[number];

/** The largest module size at which a label of this payload still lies wholly in the frame, turned as it is. */
function fitting(payload: string, symbology: LabelSymbology, rotate: number): number {
  const { columns, rows, rowHeight } = labelModules(payload, symbology);
  const [sin, cos] = [Math.abs(Math.sin((rotate * Math.PI) / 180)), Math.abs(Math.cos((rotate * Math.PI) / 180))];
  const height = rows * rowHeight + 8;
  return Math.min(1240 / (columns * cos + height * sin), 700 / (columns * sin + height * cos));
}

function specOf(
  kind: FrameKind,
  { condition, conditions }: { readonly condition: string; readonly conditions: Conditions },
  seed: number,
): FrameSpec {
  const random = seeded(seed * 7919 + 11);
  const symbology = SYMBOLOGY[kind];
  const payload = payloadOf(kind, random);
  const most = fitting(payload, symbology, conditions.rotate ?? 0);
  const scale = Math.min(conditions.scale ?? 3, most);
  // A card is taken only when it is aimed at.
  const room = kind === 'card' ? 0 : Math.max(0, 1 - scale / most) * 0.4;
  const at = [0.5 + (random() - 0.5) * room, 0.5 + (random() - 0.5) * room] as const;
  return { kind, condition, picture: { seed, at, ...conditions, payload, symbology, scale } };
}

/** Frame number `index` of a class. The same number is always the same frame. */
export function frameSpec(of: FrameClass, index: number): FrameSpec {
  const kind = FRAME_KINDS[index % FRAME_KINDS.length] ?? 'qr';
  const random = seeded(index * 104_729 + FRAME_CLASSES.indexOf(of));
  if (of === 'good') return specOf(kind, { condition: 'good', conditions: good(random) }, index + 1);
  if (of === 'mixed') return specOf(kind, { condition: 'mixed', conditions: mixed(random) }, index + 1);
  const conditions = SWEEP[Math.floor(index / FRAME_KINDS.length) % SWEEP.length] ?? {};
  // White on black is a way to print matrix codes only.
  const isLinear = SYMBOLOGY[kind] === 'code128' || SYMBOLOGY[kind] === 'code39';
  const used = conditions.inverted === true && isLinear ? {} : conditions;
  return specOf(kind, { condition: Object.keys(conditions)[0] ?? 'plain', conditions: used }, index + 1);
}
