/** What a way to tamper with an export is made of. */
import type { ExportFile } from '../../record/chain/export-file';
import type { FindingKind } from '../../record/verify/finding';
import type { Signer } from './remake';

export interface Sound {
  readonly text: string;
  readonly file: ExportFile;
  readonly signer: Signer;
  /** Somebody else's key, under the kiosk's name. */
  readonly forger: Signer;
  /** A fact line of another kiosk. */
  readonly foreign: string;
}

export interface Tamper {
  readonly name: string;
  /** One line: what was done. */
  readonly done: string;
  /** What the verifier must call it, among whatever else it finds. */
  readonly finds: FindingKind;
  readonly make: (sound: Sound) => string | Promise<string>;
}
