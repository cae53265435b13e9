/** The licences of everything that the kiosk is built from. */

export interface Licence {
  readonly name: string;
  readonly version: string;
  readonly licence: string;
  readonly text: string;
}
