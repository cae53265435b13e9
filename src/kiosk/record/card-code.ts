/** Draws the code of a printed card: a QR code that a camera reads from 30 cm away. */
import type { CardProof } from '../../screens/contract/proof-view';

/** Two units of the picture make one module; four modules of quiet lie around it (ISO/IEC 18004). */
const UNITS = 2;
const QUIET = 4;
/**
 * A camera of 1280 pixels that sees 38 cm at 30 cm distance (common practice, no source) has 3.3 pixels to the
 * millimetre, and the reader wants 2.5 to a module (measured): so a module has 0.76 mm.
 */
const MODULE_MM = 0.76;

/** Loaded only when the first card is drawn. Rejects for a text that no QR code holds. */
export async function drawCardCode(text: string): Promise<CardProof> {
  const { qrcode, drawingSVG } = await import('bwip-js/browser');
  // Lowest redundancy: the modules are larger then, and a card is scanned flat and clean.
  const options = { bcid: 'qrcode', text, scale: 1, eclevel: 'L' };
  const svg = qrcode(options, drawingSVG());
  const size = Number(/viewBox="0 0 (\d+) /.exec(svg)?.[1] ?? Number.NaN);
  if (!Number.isFinite(size)) throw new Error('The code of the card was not drawn.');
  const margin = QUIET * UNITS;
  const whole = size + 2 * margin;
  const framed = svg.replace(/viewBox="[^"]*"/, `viewBox="${-margin} ${-margin} ${whole} ${whole}"`);
  const picture = `data:image/svg+xml,${encodeURIComponent(framed)}`;
  return { text, picture, widthMm: Math.ceil((whole / UNITS) * MODULE_MM) };
}
