/** Marks and items: several marks of one item, and marks that contradict the books. */
import { describe, expect, it } from 'vitest';
import { itemOfMark } from '../../../src/domain/component/component-mark';
import { LOFT } from '../../packing/fixture';

describe('the item of a mark', () => {
  it.each<[string, { serial: string; uii?: string }, string]>([
    ['a serial', { serial: 'P1-BAG' }, 'P1-BAG'],
    ['an older mark', { serial: 'P1-OLD-BAG-LABEL' }, 'P1-BAG'],
    ['a mark with the identifier on record', { serial: 'P1-CONTAINER', uii: 'D00000P1-CONTAINER' }, 'P1-CONTAINER'],
    ['an identifier whose serial is nobody else’s', { serial: 'OTHER', uii: 'D00000P1-CONTAINER' }, 'P1-CONTAINER'],
    ['an identifier that is written down as a further mark', { serial: 'X-1', uii: 'P1-OLD-BAG-LABEL' }, 'P1-BAG'],
    ['an identifier where the books have none', { serial: 'P1-BAG', uii: 'D99999P1-BAG' }, 'P1-BAG'],
    [
      'an identifier of another maker with the same serial',
      { serial: 'P1-CONTAINER', uii: 'D99999P1-CONTAINER' },
      'conflict',
    ],
    ['identifier and serial of two components', { serial: 'P2-CONTAINER', uii: 'D00000P1-CONTAINER' }, 'conflict'],
    ['nothing that is known', { serial: 'Z-9-9', uii: 'D99999Z-9-9' }, 'unknown'],
    ['no serial that is known', { serial: 'Z-9-9' }, 'unknown'],
  ])('%s', (_name, mark, expected) => {
    const item = itemOfMark(LOFT.assemblies, mark);
    expect(item.kind === 'found' ? item.component.serial : item.kind).toBe(expected);
    if (item.kind === 'conflict') expect(item.detail).toMatch(/Set it aside/);
  });

  it('that names two items says which two, so that both can be set aside', () => {
    expect(itemOfMark(LOFT.assemblies, { serial: 'P2-CONTAINER', uii: 'D00000P1-CONTAINER' })).toEqual({
      kind: 'conflict',
      detail:
        'This mark names two items: by its identifier container P1-CONTAINER, by its serial container P2-CONTAINER. ' +
        'Set it aside, and have marks and books put right.',
    });
    expect(itemOfMark(LOFT.assemblies, { serial: 'P1-CONTAINER', uii: 'D99999P1-CONTAINER' })).toEqual({
      kind: 'conflict',
      detail:
        'This mark names container P1-CONTAINER, but carries another item identifier than the books have for it. ' +
        'Set it aside, and have marks and books put right.',
    });
  });
});
