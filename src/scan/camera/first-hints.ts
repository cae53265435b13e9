/** What the first reader is told to look for, in the page and in benches alike. */
import { BarcodeFormat, DecodeHintType } from '@zxing/library';

/** Only the loft's four kinds: with all kinds on, retail codes are read out of noise. */
const FORMATS = [BarcodeFormat.CODE_128, BarcodeFormat.CODE_39, BarcodeFormat.DATA_MATRIX, BarcodeFormat.QR_CODE];

export const FIRST_HINTS: ReadonlyMap<DecodeHintType, unknown> = new Map<DecodeHintType, unknown>([
  [DecodeHintType.POSSIBLE_FORMATS, FORMATS],
  [DecodeHintType.ASSUME_GS1, true],
]);
