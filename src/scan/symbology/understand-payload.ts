/** From what a reader delivered to what it means: a component, a badge, a command, or a refusal with its reason. */
import type { Result } from '../../domain/result';
import type { LabelKind } from '../../domain/scanning';
import type { SightingMeaning } from '../../domain/sighting';
import { takeAimIdentifier } from './aim';
import { looksLikeBadge, parseBadgePayload } from './badge';
import { looksLikeCard, parseCardPayload } from './card';
import { code39CheckFits } from './code39';
import { looksLikeEnvelope, parseEnvelope } from './envelope';
import { FNC1, parseElementString } from './gs1';
import { identifiedFields, identityFromElements, identityFromFields } from './item-mark';
import type { ItemIdentity } from './item-mark';
import { mod10Fits } from './mod10';
import { isPlainSerial } from './serial';

/** No label in a loft is longer; a longer one is not looked at. */
const LONGEST = 512;

/** What the loft has set about its labels. */
export interface LabelSettings {
  /** Kinds of label that end in a mod 43 check character where they are Code 39. */
  readonly code39Check: readonly LabelKind[];
}

const NO_SETTINGS: LabelSettings = { code39Check: [] };

/** What a reader delivers, as far as meaning goes. */
export interface Reading {
  readonly payload: string;
  readonly symbology: string;
}

/** As `SightingMeaning`, but with a badge's identifier itself: it goes no further than the edge that scanned it. */
export type PayloadMeaning =
  Exclude<SightingMeaning, { kind: 'badge' }> | { readonly kind: 'badge'; readonly badge: string };

function refusal(reason: string, detail: string): PayloadMeaning {
  return { kind: 'refused', reason, detail };
}

function componentOf(identity: Result<ItemIdentity>): PayloadMeaning {
  if (!identity.ok) return refusal(identity.reason, identity.detail);
  const { serial, uii } = identity.value;
  return uii === null ? { kind: 'component', serial } : { kind: 'component', serial, uii };
}

function understandGs1(data: string): PayloadMeaning {
  const elements = parseElementString(data);
  return elements.ok ? componentOf(identityFromElements(elements.value)) : refusal(elements.reason, elements.detail);
}

type ComponentMeaning = Extract<PayloadMeaning, { kind: 'component' }>;

function agree(left: ComponentMeaning, right: ComponentMeaning): boolean {
  return left.serial === right.serial && (left.uii ?? right.uii) === (right.uii ?? left.uii);
}

/** The item in an envelope message. All its envelopes must name the same serial. */
function understandEnvelope(payload: string): PayloadMeaning {
  const message = parseEnvelope(payload);
  if (!message.ok) return refusal(message.reason, message.detail);
  let meaning: ComponentMeaning | null = null;
  for (const { format, fields: texts } of message.value) {
    let next: PayloadMeaning;
    if (format === '05') next = understandGs1(texts.join(FNC1));
    else {
      const fields = identifiedFields(format, texts);
      next = fields.ok ? componentOf(identityFromFields(fields.value)) : refusal(fields.reason, fields.detail);
    }
    if (next.kind !== 'component') return next;
    if (meaning !== null && !agree(meaning, next)) {
      return refusal('two-serials', 'This mark names two items. Set the component aside and report it.');
    }
    // An envelope without an identifier adds nothing to one that has it.
    if (meaning === null || next.uii !== undefined) meaning = next;
  }
  return meaning ?? refusal('envelope-broken', 'This mark was not read to its end. Scan it again.');
}

/** EAN and UPC name a product: right or wrong, they identify no item. */
function understandRetail(data: string): PayloadMeaning {
  if (!mod10Fits(data) || ![8, 13].includes(data.length)) {
    return refusal('check-wrong', 'The check digit does not fit. Scan it again.');
  }
  return refusal('no-serial', 'This code names a product, not an item. Scan the mark with the serial.');
}

function understandPlain(text: string): PayloadMeaning {
  // eslint-disable-next-line no-control-regex -- control characters are just what is looked for
  if (/[\u0000-\u001f\u007f]/.test(text)) {
    return refusal('control-characters', 'This label has characters that cannot be printed. Scan another mark of it.');
  }
  if (looksLikeCard(text)) {
    const card = parseCardPayload(text);
    return card.ok ? { kind: 'command', command: card.value } : refusal(card.reason, card.detail);
  }
  if (looksLikeBadge(text)) {
    const badge = parseBadgePayload(text);
    return badge.ok ? { kind: 'badge', badge: badge.value } : refusal(badge.reason, badge.detail);
  }
  if (isPlainSerial(text)) return { kind: 'component', serial: text };
  if (isPlainSerial(text.toUpperCase())) {
    return refusal('small-letters', 'The label came in small letters. Switch the caps lock off and scan it again.');
  }
  return refusal('unknown', 'This is no label, badge or card of the loft. Scan another mark of it.');
}

/**
 * A Code 39 label of a kind that the loft prints with a check character: checked, and the character taken off. Null
 * where it does not fit. `]A3` says that the reader has checked and taken it off itself.
 */
function withoutCode39Check(data: string, reading: Reading, { code39Check }: LabelSettings): string | null {
  const { payload, symbology } = reading;
  const isCode39 = payload.startsWith(']A') || symbology === 'code39';
  const kind: LabelKind = looksLikeBadge(data) ? 'badge' : 'component';
  if (!isCode39 || payload.startsWith(']A3') || !code39Check.includes(kind)) return data;
  return code39CheckFits(data) ? data.slice(0, -1) : null;
}

/** What a reading means. Never throws, whatever the payload; anything not understood in full is refused. */
export function understandPayload(reading: Reading, settings: LabelSettings = NO_SETTINGS): PayloadMeaning {
  const { payload } = reading;
  if (payload === '') return refusal('empty', 'Nothing was read. Scan it again.');
  if (payload.length > LONGEST) return refusal('too-long', 'This code is too long for any label of the loft.');
  const { carrier, data } = takeAimIdentifier(payload);
  if (carrier === 'gs1') return understandGs1(data);
  if (carrier === 'retail') return understandRetail(data);
  if (carrier === 'unknown') return refusal('unknown', 'This kind of code is not used in the loft.');
  if (looksLikeEnvelope(data)) return understandEnvelope(data);
  if (data.startsWith(FNC1)) return understandGs1(data.slice(FNC1.length));
  const text = withoutCode39Check(data, reading, settings);
  if (text === null) return refusal('check-wrong', 'The check character does not fit. Scan it again.');
  return understandPlain(text);
}
