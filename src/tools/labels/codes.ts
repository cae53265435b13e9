/** Barcodes as SVG in millimetres, through bwip-js, with modules wide enough for a camera 30 cm away. */
import bwipjs from 'bwip-js/node';

/**
 * Widths of a module in millimetres. A camera of 1280 pixels that sees 38 cm at 30 cm distance (65 degrees across,
 * common practice, no source) has 3.3 pixels to the millimetre; the reader wants 2.5 to a module (measured).
 */
const MODULE_MM = { linear: 0.75, matrix: 1 } as const;
const BAR_HEIGHT_MM = 15;

export const CODE_KINDS = ['code128', 'dataMatrix', 'qr'] as const;
export type CodeKind = (typeof CODE_KINDS)[number];

const ENCODERS: Readonly<Record<CodeKind, string>> = { code128: 'code128', dataMatrix: 'datamatrix', qr: 'qrcode' };
/** Quiet zone in modules: ISO/IEC 15417 asks for 10, 16022 for 1 (more is kinder to cameras), 18004 for 4. */
const QUIET: Readonly<Record<CodeKind, number>> = { code128: 10, dataMatrix: 3, qr: 4 };

interface RawLinear {
  /** Widths of bar, space, bar, ... in modules. */
  readonly sbs: readonly number[];
}
interface RawMatrix {
  readonly pixs: readonly number[];
  readonly pixx: number;
  readonly pixy: number;
}

/** Dark strokes of equal thickness, in millimetres: from a point to the right. */
interface Drawing {
  readonly width: number;
  readonly height: number;
  readonly thickness: number;
  readonly strokes: readonly { readonly left: number; readonly middle: number; readonly length: number }[];
}

/** A linear symbol is one row of strokes as thick as its bars are high. */
function drawLinear({ sbs }: RawLinear, quiet: number): Drawing {
  const unit = MODULE_MM.linear;
  const strokes: { left: number; middle: number; length: number }[] = [];
  let at = quiet;
  sbs.forEach((modules, index) => {
    if (index % 2 === 0) strokes.push({ left: at * unit, middle: BAR_HEIGHT_MM / 2, length: modules * unit });
    at += modules;
  });
  return { width: (at + quiet) * unit, height: BAR_HEIGHT_MM, thickness: BAR_HEIGHT_MM, strokes };
}

function drawMatrix({ pixs, pixx, pixy }: RawMatrix, quiet: number): Drawing {
  const unit = MODULE_MM.matrix;
  const strokes: { left: number; middle: number; length: number }[] = [];
  for (let y = 0; y < pixy; y += 1) {
    for (let x = 0; x < pixx; x += 1) {
      const start = x;
      // Dark modules side by side are one stroke, so that no hair line is printed between them.
      while (x < pixx && pixs[y * pixx + x] === 1) x += 1;
      if (x === start) continue;
      strokes.push({ left: (start + quiet) * unit, middle: (y + quiet + 0.5) * unit, length: (x - start) * unit });
    }
  }
  return { width: (pixx + 2 * quiet) * unit, height: (pixy + 2 * quiet) * unit, thickness: unit, strokes };
}

function drawingOf(kind: CodeKind, payload: string): Drawing {
  const options = { bcid: ENCODERS[kind], text: payload, ...(kind === 'qr' ? { eclevel: 'M' } : {}) };
  const [symbol] = bwipjs.raw(options) as unknown as readonly (RawLinear | RawMatrix)[];
  if (symbol === undefined) throw new Error(`no symbol for ${payload}`);
  return 'sbs' in symbol ? drawLinear(symbol, QUIET[kind]) : drawMatrix(symbol, QUIET[kind]);
}

const millimetres = (value: number): string => String(Math.round(value * 100) / 100);

/** The symbol as an SVG element of its true size, on white. */
export function codeSvg(kind: CodeKind, payload: string): string {
  const { width, height, thickness, strokes } = drawingOf(kind, payload);
  const path = strokes
    .map(({ left, middle, length }) => `M${millimetres(left)} ${millimetres(middle)}h${millimetres(length)}`)
    .join('');
  const [w, h] = [millimetres(width), millimetres(height)];
  return (
    `<svg xmlns="http://www.w3.org/2000/svg" width="${w}mm" height="${h}mm" viewBox="0 0 ${w} ${h}" ` +
    `shape-rendering="crispEdges"><path stroke="#000" stroke-width="${thickness}" d="${path}"/></svg>`
  );
}
