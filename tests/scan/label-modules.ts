/** From a payload to the black and white modules of its symbol, through bwip-js; used by picture tests only. */
import bwipjs from 'bwip-js/node';

export const LABEL_SYMBOLOGIES = ['code128', 'code39', 'dataMatrix', 'qr'] as const;
export type LabelSymbology = (typeof LABEL_SYMBOLOGIES)[number];

/** A symbol as rows of modules, quiet zone included; a linear symbol has one row that is stretched to `rowHeight`. */
export interface LabelModules {
  readonly columns: number;
  readonly rows: number;
  /** Height of a row in modules: 1 for matrix symbols. */
  readonly rowHeight: number;
  /** 1 = dark, row by row. */
  readonly dark: Uint8Array;
}

interface RawLinear {
  readonly sbs: readonly number[];
}
interface RawMatrix {
  readonly pixs: readonly number[];
  readonly pixx: number;
  readonly pixy: number;
}

const BCID: Readonly<Record<LabelSymbology, string>> = {
  code128: 'code128',
  code39: 'code39',
  dataMatrix: 'datamatrix',
  qr: 'qrcode',
};
const QUIET: Readonly<Record<LabelSymbology, number>> = { code128: 10, code39: 10, dataMatrix: 3, qr: 4 };
const BAR_HEIGHT = 40;

/** `]C1`, `]d2` and `]Q3` ahead of the payload ask for FNC1 in first place; GS then stands for FNC1. */
function optionsFor(payload: string, symbology: LabelSymbology): Record<string, unknown> {
  const isGs1 = /^\](C1|d2|Q3)/.test(payload);
  const data = isGs1 ? `^FNC1${payload.slice(3).replaceAll('\u001d', '^FNC1')}` : payload;
  // Escapes keep control characters out of the encoder's text; a caret of the payload would be taken for one.
  // eslint-disable-next-line no-control-regex -- control characters are just what is escaped
  const text = isGs1 ? data : data.replaceAll('^', '^094').replaceAll(/[\u0000-\u001f]/g, escapeControl);
  return {
    bcid: BCID[symbology],
    text,
    parse: !isGs1,
    parsefnc: isGs1,
    ...(symbology === 'qr' ? { eclevel: 'M' } : {}),
  };
}

function escapeControl(character: string): string {
  return `^${String(character.charCodeAt(0)).padStart(3, '0')}`;
}

function linearModules(widths: readonly number[], quiet: number): LabelModules {
  const total = Math.round(widths.reduce((sum, width) => sum + width, 0)) + 2 * quiet;
  const dark = new Uint8Array(total);
  let at = quiet;
  widths.forEach((width, index) => {
    if (index % 2 === 0) dark.fill(1, at, at + width);
    at += width;
  });
  return { columns: total, rows: 1, rowHeight: BAR_HEIGHT, dark };
}

function matrixModules(raw: RawMatrix, quiet: number): LabelModules {
  const columns = raw.pixx + 2 * quiet;
  const rows = raw.pixy + 2 * quiet;
  const dark = new Uint8Array(columns * rows);
  for (let y = 0; y < raw.pixy; y += 1) {
    for (let x = 0; x < raw.pixx; x += 1) dark[(y + quiet) * columns + x + quiet] = raw.pixs[y * raw.pixx + x] ?? 0;
  }
  return { columns, rows, rowHeight: 1, dark };
}

/** The symbol of a payload. */
export function labelModules(payload: string, symbology: LabelSymbology): LabelModules {
  const [raw] = bwipjs.raw(optionsFor(payload, symbology) as never) as unknown as readonly (RawLinear | RawMatrix)[];
  if (raw === undefined) throw new Error(`no symbol for ${payload}`);
  const quiet = QUIET[symbology];
  return 'sbs' in raw ? linearModules(raw.sbs, quiet) : matrixModules(raw, quiet);
}
