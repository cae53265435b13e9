/** What a loft sets about its labels and scanners. */

/** `us`: a scanner that acts as a US keyboard, whatever layout the system has; `host`: set to the system's layout. */
export const SCANNER_KEYBOARDS = ['us', 'host'] as const;
export type ScannerKeyboard = (typeof SCANNER_KEYBOARDS)[number];

export interface ScannerSettings {
  /** What the loft's scanners put before and after each reading; empty for nothing. */
  readonly prefix: string;
  readonly suffix: string;
  readonly keyboard: ScannerKeyboard;
}

export const LABEL_KINDS = ['component', 'badge'] as const;
/** Labels that can be printed as Code 39; command cards cannot, since it has no colon. */
export type LabelKind = (typeof LABEL_KINDS)[number];
