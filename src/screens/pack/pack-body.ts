/** What every screen of a pack is given. */
import type { ReactNode } from 'react';
import type { ProofState } from '../contract/proof-view';
import type { Detail, PackView } from '../contract/pack-view';
import type { Controls } from '../parts/use-controls';

export type BodyName = Detail['screen'];
export type DetailOf<S extends BodyName> = { readonly [K in S]: Extract<Detail, { screen: K }> }[S];

/** What every screen of a pack is given beside its detail. */
export interface BodySurroundings {
  readonly prompt: PackView['prompt'];
  readonly view: PackView;
  readonly proof: ProofState | null;
  readonly controls: Controls;
  /** Drawn already: the notice, the open pad, and the camera picture; null where there is none. */
  readonly notice: ReactNode;
  readonly pad: ReactNode;
  readonly camera: ReactNode;
}

export interface BodyProps<S extends BodyName> extends BodySurroundings {
  readonly detail: DetailOf<S>;
}
