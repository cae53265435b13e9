/** Words of the papers. */
import type { LogRecord, Paper, WorkKind } from '../../../domain/log-record';

/** How riggers mark the kind of work: whole and short. */
export const WORK_MARKS: Readonly<Record<WorkKind, { readonly whole: string; readonly short: string }>> = {
  assembleAndPack: { whole: 'assembled and packed', short: 'A & P' },
  inspectAndRepack: { whole: 'inspected and repacked', short: 'I & R' },
};

export function certified({ name, certificate }: { readonly name: string; readonly certificate: string }): string {
  return `${name}, certificate ${certificate}`;
}

/**
 * Defects of the material, as the inspection before packing found them. "None found" is said only where somebody was
 * asked; a record of an earlier form has its returns in the same list.
 */
export function defectsText({ materialDefects, defects }: LogRecord): string {
  if (materialDefects === undefined) return defects.length === 0 ? 'none on record' : defects.join('; ');
  if (materialDefects === null) return 'nobody was asked';
  return materialDefects.length === 0 ? 'none found' : materialDefects.join('; ');
}

/** Empty where the loft uses no seals. */
export function sealText({ sealMark }: LogRecord): string {
  return sealMark ?? '';
}

/** "12 uses", "not known". */
export function usesText(uses: number | null): string {
  if (uses === null) return 'not known';
  return uses === 1 ? '1 use' : `${String(uses)} uses`;
}

/** Names of the two papers, in the middle of a sentence. */
export const PAPER_WORDS: Readonly<Record<Paper, string>> = { dataCard: 'data card', logBookPage: 'log book page' };
