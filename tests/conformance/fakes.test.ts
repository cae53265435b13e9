/** The fakes keep the promises of their ports; the real parts run the same suites in `tests/e2e/ports.spec.ts`. */
import { describe, expect, it } from 'vitest';
import { fakeEar } from '../fakes/ear';
import { fakeScanner } from '../fakes/scanner';
import { fakeMouth } from '../fakes/mouth';
import { enrollingConformance, SPOKEN } from './enrolling';
import { hearingConformance } from './hearing';
import { sightingConformance } from './sighting';
import { speakingConformance } from './speaking';

describe('fakes keep the promises of their ports', () => {
  it('voice', async () => {
    const port = fakeMouth({ instant: false });
    expect(await speakingConformance({ port, finish: port.finish })).toEqual([]);
  });

  it('ear', async () => {
    const port = fakeEar();
    const speak = (command: Parameters<typeof port.speak>[0]): Promise<void> => Promise.resolve(port.speak(command));
    expect(await hearingConformance({ port, speak })).toEqual([]);
  });

  it('ear that learns voices', async () => {
    const port = fakeEar();
    const say: Parameters<typeof enrollingConformance>[0]['say'] = ({ name }) =>
      Promise.resolve(port.sampling() === null ? port.speak({ name }) : port.read(SPOKEN[name]));
    expect(await enrollingConformance({ port, say })).toEqual([]);
  });

  it('scanner', async () => {
    const port = fakeScanner();
    const lay = (payload: string): Promise<void> =>
      Promise.resolve(port.see({ payload, symbology: 'code128', reader: 'camera' }));
    expect(await sightingConformance({ port, lay })).toEqual([]);
  });

  it('a deaf ear, a broken voice and a blind scanner are told apart from working ones', async () => {
    const ear = fakeEar();
    expect(await hearingConformance({ port: ear, speak: () => Promise.resolve() })).not.toEqual([]);
    expect(await enrollingConformance({ port: ear, say: () => Promise.resolve() })).not.toEqual([]);
    const mouth = fakeMouth({ instant: false, trouble: 'engine' });
    expect(await speakingConformance({ port: mouth, finish: mouth.finish })).not.toEqual([]);
    const scanner = fakeScanner();
    expect(await sightingConformance({ port: scanner, lay: () => Promise.resolve() })).not.toEqual([]);
  });
});
