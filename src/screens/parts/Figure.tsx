/** A length drawn so that "1 1/4" cannot be taken for "11/4": the fraction stands upright beside the whole. */
import type { ReactElement } from 'react';
import { forPeople, makeQuantity, mixedNumber, type Quantity } from '../../domain/quantity';

interface FigureProps {
  readonly quantity: Quantity;
}

/** Draws one quantity with its unit; assistive technology gets it as one line of text. */
export function Figure({ quantity }: FigureProps): ReactElement {
  const mixed = mixedNumber(quantity);
  const sign = quantity.value < 0 ? '-' : '';
  if (mixed === null || mixed.fraction === null) {
    const number = mixed === null ? String(forPeople(quantity.value)) : `${sign}${String(mixed.whole)}`;
    return (
      <span className="figure">
        {number} {quantity.unit}
      </span>
    );
  }
  const { whole, fraction } = mixed;
  return (
    <span className="figure">
      <span className="unseen">{makeQuantity(quantity)}</span>
      <span aria-hidden="true">
        {sign}
        {whole === 0 ? null : whole}
        <span className="fraction">
          <span className="fraction-over">{fraction.over}</span>
          <span>{fraction.under}</span>
        </span>{' '}
        {quantity.unit}
      </span>
    </span>
  );
}
