/** What every screen of a pack is given. */
import type { ReactNode } from 'react';
import type { ProofState } from '../contract/proof-view';
import type { Detail, PackView } from '../contract/pack-view';
import type { Controls } from '../parts/use-controls';

export type DetailOf<S extends Detail['screen']> = Extract<Detail, { screen: S }>;

export interface BodyProps<S extends Detail['screen']> {
  readonly detail: DetailOf<S>;
  readonly prompt: PackView['prompt'];
  readonly view: PackView;
  readonly proof: ProofState | null;
  readonly controls: Controls;
  /** Drawn already: the notice, the open pad, and the camera picture; null where there is none. */
  readonly notice: ReactNode;
  readonly pad: ReactNode;
  readonly camera: ReactNode;
}
