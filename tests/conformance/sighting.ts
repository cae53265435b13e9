/** What any scanner must do; runs on the fake and, in Chromium, on the real camera path with real pictures. */
import type { RawReading, SightingPort } from '../../src/scan/sighting';

export interface SightingRig {
  readonly port: SightingPort;
  /** Lays a label with this payload before the scanner, waits until it has been seen, and takes it away again. */
  readonly lay: (payload: string) => Promise<void>;
}

export async function sightingConformance(rig: SightingRig): Promise<readonly string[]> {
  const broken: string[] = [];
  const { port } = rig;
  const seen: RawReading[] = [];
  const forget = port.onReading((reading) => seen.push(reading));
  const expect = async (payload: string, wanted: string, promise: string): Promise<void> => {
    seen.length = 0;
    await rig.lay(payload);
    const got = seen.map((reading) => reading.payload).join(' ');
    if (got !== wanted) broken.push(`${promise} (laid ${payload}, got "${got}")`);
  };

  if (!(await port.start()).ok) return ['start: must succeed on a working scanner'];
  await expect('QHB-2104-017', 'QHB-2104-017', 'a label must be delivered, and once');
  await expect('QHC-1907-031', 'QHC-1907-031', 'another label must be delivered');
  await expect('QHC-1907-031', 'QHC-1907-031', 'the same label, away and back, must be delivered again');
  port.stop();
  await expect('QHB-2104-017', '', 'stop: nothing may be delivered');
  if (!(await port.start()).ok) broken.push('start: must work again after stop');
  await expect('QHB-2104-017', 'QHB-2104-017', 'start: a label must be delivered after a second start');
  forget();
  await expect('QHC-1907-031', '', 'onReading: a removed listener must not be called');
  return broken;
}
