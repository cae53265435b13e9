/** Whose PIN is asked for. */
import { describe, expect, it } from 'vitest';
import { pinAskedOf } from '../../../src/packing/badge/pin-asked';
import { textDigest } from '../../../src/record/chain/text-digest';
import { reach } from '../autopilot';
import { PackDriver } from '../pack-driver';
import { atHold, badge, reasons } from './pin-pack';

describe('whose PIN is asked for', () => {
  const asked = (pack: PackDriver, person: string, ageSeconds = 0): string | null => {
    const at = new Date(pack.ms + 1000).toISOString();
    const made = new Date(pack.ms + 1000 - ageSeconds * 1000).toISOString();
    const meaning = { kind: 'badge', badgeDigest: textDigest(`B-${person}`) } as const;
    const sighting = { id: 'new', at: made, reader: 'camera', payloadDigest: '', meaning } as const;
    return pinAskedOf(pack.snapshot, { type: 'SIGHTED', sighting, at })?.id ?? null;
  };

  it('only that of somebody whom the PIN would let in', () => {
    const pack = atHold('eachHold');
    expect(['ines', 'ada', 'rhea', 'nobody'].map((person) => asked(pack, person))).toEqual(['ines', null, null, null]);
    expect(asked(pack, 'ines', 3600)).toBeNull();
    expect(asked(atHold('never'), 'ines')).toBeNull();
    expect(asked(atHold('eachHold', ['ines']), 'ines')).toBeNull();
    for (let tries = 0; tries < 3; tries += 1) badge(pack, 'ines', 'wrong');
    expect(asked(pack, 'ines')).toBeNull();
  });

  it('nobody’s while something is being stored, or where no badge is wanted', () => {
    const pack = atHold('eachHold');
    pack.storage = 'hangs';
    pack.command({ name: 'callInspector' });
    expect(asked(pack, 'ines')).toBeNull();
    const working = new PackDriver({ loft: pack.snapshot.context.loft });
    reach(working, 'stage:lay');
    expect(asked(working, 'ines')).toBeNull();
  });

  it('that of the next inspector, when the time of the one before has run out', () => {
    const pack = atHold('eachHold');
    badge(pack, 'ines', 'fits');
    pack.after(500);
    expect(asked(pack, 'iris')).toBe('iris');
  });

  it('asking changes nothing', () => {
    const pack = atHold('eachHold');
    const before = pack.snapshot;
    asked(pack, 'ines');
    expect(pack.snapshot).toBe(before);
    expect(reasons(pack)).toEqual([]);
  });
});
