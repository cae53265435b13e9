/** The deciding reader: zxing-wasm on one view of one frame, in a Worker or in Node alike. */
import { prepareZXingModule, readBarcodes } from 'zxing-wasm/reader';
import type { ReaderOptions, ReadResult } from 'zxing-wasm/reader';
import type { Symbology } from '../sighting';
import { partShown, viewOf } from './frame';
import type { Frame, Pass } from './frame';

export interface SecondReading {
  readonly payload: string;
  readonly symbology: Symbology;
  /** Distance of the code's middle from the picture's middle, as part of the picture's height. */
  readonly offCentre: number;
}

/** `Plain` keeps control characters as they are; the default replaces them by pictures and adds brackets. */
const ALL: ReaderOptions = {
  formats: ['Code128', 'Code39Std', 'DataMatrix', 'QRCode'],
  textMode: 'Plain',
  // A whole sheet of codes may be in view, and the one aimed at must be among those that are read.
  maxNumberOfSymbols: 24,
};
/**
 * Turned and mended views are there for linear codes, and matrix codes that are missed at one angle are read at another
 * (measured: 1 in 36 Data Matrix labels at 2.5 to 4 pixels a module). White on black is looked for in the others.
 */
const TURNED: ReaderOptions = { ...ALL, tryInvert: false };

function optionsFor(pass: Pass): ReaderOptions {
  return pass === 'plain' || pass === 'crop' ? ALL : TURNED;
}

/**
 * Code 39 has no check of its own, and bars of other labels look like a character or two of it (measured: one blank
 * read out of a turned label in 1,400 frames). No label of a loft is so short.
 */
const SHORTEST_CODE39 = 4;

function isCredible({ isValid, text, symbology }: ReadResult): boolean {
  return isValid && text !== '' && (symbology !== 'Code39' || text.trim().length >= SHORTEST_CODE39);
}

const SYMBOLOGY_OF: Readonly<Record<string, Symbology>> = {
  Code128: 'code128',
  Code39: 'code39',
  DataMatrix: 'dataMatrix',
  QRCode: 'qr',
};

/** Starts the engine, either from the page's own origin or from the bytes of its file. Rejects when it will not start. */
export async function prepareSecondReader(
  from: { readonly url: string } | { readonly bytes: ArrayBuffer },
): Promise<void> {
  const overrides = 'url' in from ? { locateFile: () => from.url } : { wasmBinary: from.bytes };
  await prepareZXingModule({ overrides, fireImmediately: true });
}

/** GS1 data keep their AIM identifier, since only it tells FNC1 in first place; all other data come as they are. */
function payloadOf(result: ReadResult): string {
  return result.contentType === 'GS1' ? result.symbologyIdentifier + result.text : result.text;
}

interface Placed {
  readonly x: number;
  readonly y: number;
  readonly longest: number;
}

function placeOf({ position }: ReadResult): Placed {
  const { topLeft, topRight, bottomRight, bottomLeft } = position;
  const x = (topLeft.x + topRight.x + bottomRight.x + bottomLeft.x) / 4;
  const y = (topLeft.y + topRight.y + bottomRight.y + bottomLeft.y) / 4;
  const along = Math.hypot(topRight.x - topLeft.x, topRight.y - topLeft.y);
  const across = Math.hypot(bottomRight.x - topRight.x, bottomRight.y - topRight.y);
  return { x, y, longest: Math.max(along, across) };
}

/** Whether a place lies within the outline of a symbol; outlines are parallelograms, nearly. */
function encloses({ position }: ReadResult, { x, y }: Placed): boolean {
  const { topLeft, topRight, bottomLeft } = position;
  const part = (to: typeof topRight): number => {
    const [dx, dy] = [to.x - topLeft.x, to.y - topLeft.y];
    return ((x - topLeft.x) * dx + (y - topLeft.y) * dy) / (dx * dx + dy * dy);
  };
  const [along, down] = [part(topRight), part(bottomLeft)];
  return along >= 0 && along <= 1 && down >= 0 && down <= 1;
}

/**
 * One symbol read in two ways is not read: some rows of a bent or slanting label pass the check by chance now and then,
 * beside the right reading of the others (measured: twice in 10,000 frames). Labels side by side lie farther apart than
 * a tenth of their length, and neither's middle within the other.
 */
function contradicts(one: ReadResult, other: ReadResult): boolean {
  if (one.text === other.text) return false;
  const [here, there] = [placeOf(one), placeOf(other)];
  const apart = Math.hypot(here.x - there.x, here.y - there.y);
  return apart < Math.max(here.longest, there.longest) / 10 || encloses(one, there) || encloses(other, here);
}

function offCentreOf(result: ReadResult, view: Frame, pass: Pass): number {
  const { x, y } = placeOf(result);
  return (Math.hypot(x - view.width / 2, y - view.height / 2) / view.height) * partShown(pass);
}

/** What was read, and the view that showed it; null when none did. */
export interface ViewReading {
  readonly readings: readonly SecondReading[];
  readonly pass: Pass | null;
}

/** What can be read in the first of these views that shows anything; `read` reads one view. */
export async function readViews(
  frame: Frame,
  passes: readonly Pass[],
  read: (frame: Frame, pass: Pass) => Promise<readonly SecondReading[]> = readFrame,
): Promise<ViewReading> {
  for (const pass of passes) {
    const readings = await read(frame, pass);
    if (readings.length > 0) return { readings, pass };
  }
  return { readings: [], pass: null };
}

/** Everything that can be read in this view of the frame. */
export async function readFrame(frame: Frame, pass: Pass): Promise<readonly SecondReading[]> {
  const view = viewOf(frame, pass);
  const image = { width: view.width, height: view.height, data: view.rgba, colorSpace: 'srgb' } as ImageData;
  const results = (await readBarcodes(image, optionsFor(pass))).filter(isCredible);
  return results
    .filter((result) => !results.some((other) => contradicts(result, other)))
    .map((result) => ({
      payload: payloadOf(result),
      symbology: SYMBOLOGY_OF[result.symbology] ?? 'unknown',
      offCentre: offCentreOf(result, view, pass),
    }));
}
