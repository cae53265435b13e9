/** The code by which the papers of a signed record prove themselves. */

/** The code on a data card. */
export interface CardProof {
  readonly text: string;
  /** Its picture as a `data:` address. */
  readonly picture: string;
  /** Width of the picture on paper, in millimetres: wide enough for a camera 30 cm away. */
  readonly widthMm: number;
}

/** What happened to the proof of a signed record: it takes a moment, and a browser may be unable to sign. */
export type ProofState =
  | { readonly state: 'making' }
  | { readonly state: 'made'; readonly proof: CardProof }
  | { readonly state: 'failed'; readonly why: string };
