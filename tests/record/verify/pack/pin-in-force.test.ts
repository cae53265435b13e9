/** A loft that wants PINs: the verifier knows from the journal alone whether each was given. */
import { describe, expect, it } from 'vitest';
import type { PinPolicy } from '../../../../src/domain/pin';
import { findingsOf } from '../remade-story';

/** The sound story as it would be with this policy, where `given` says at which acts a PIN was given. */
function findingsUnder(
  pin: PinPolicy,
  given: (nth: number) => boolean,
  atSignature = true,
): Promise<readonly string[]> {
  let nth = 0;
  return findingsOf((fact) => {
    const { body } = fact;
    if (body.kind === 'procedureInForce') return { ...fact, body: { ...body, pin } };
    if (body.kind === 'signed' && atSignature) return { ...fact, body: { ...body, pin: true } };
    if (body.kind !== 'inspectorPresent') return fact;
    return given(nth++) ? { ...fact, body: { ...body, pin: true } } : fact;
  });
}

describe('PINs', () => {
  it('given wherever they were wanted: nothing is found', async () => {
    expect(await findingsUnder('eachHold', () => true)).toEqual([]);
    expect(await findingsUnder('firstUse', () => true)).toEqual([]);
    expect(await findingsUnder('never', () => false)).toEqual([]);
  });

  it('left out at one hold', async () => {
    expect(await findingsUnder('eachHold', (nth) => nth !== 2)).toEqual([expect.stringMatching(/PIN of tomas-veller/)]);
    // He was known by then.
    expect(await findingsUnder('firstUse', (nth) => nth !== 2)).toEqual([]);
  });

  it.each(['firstUse', 'eachHold'] as const)('left out at the signature, under %s', async (policy) => {
    const found = await findingsUnder(policy, () => true, false);
    expect(found.length).toBeGreaterThan(0);
    for (const detail of found) expect(detail).toMatch(/PIN of .* was wanted for the signature and not given/);
  });

  it('left out at the first use of each pack', async () => {
    const found = await findingsUnder('firstUse', () => false);
    expect(found.length).toBeGreaterThan(2);
    expect(found.every((detail) => detail.includes('PIN of'))).toBe(true);
  });
});
