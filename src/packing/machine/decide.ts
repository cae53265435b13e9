/** One event in, one decision out. What is legal and what is accepted come from the same list of acts. */
import type { Command } from '../../domain/command';
import { cardActs } from '../steps/close-up/card-work';
import { callInspector, remaining, sayAgain, standBy } from './common-acts';
import type { Here, PackContext, Phase } from './context';
import { hereOf } from './context';
import { correctionActs } from '../steps/read-back/correction';
import type { Decision } from './decision';
import { draft, refusal, remarkOn, store, warning } from './decision';
import type { PackEvent } from './event';
import { takeFiles } from './files-changed';
import { hasLapsed, holdScan } from '../steps/hold/hold-scan';
import { backToActs, findingActs, inspectingActs, pointActs, readListAct } from '../steps/hold/hold-work';
import { identifyScan, scanWhileReadBack } from '../steps/identify/identify';
import type { Act, Said } from './legal';
import { WORDING } from './legal';
import { lookOverActs } from '../steps/inspect/look-over';
import { readBackActs } from '../steps/read-back/read-back';
import { reopenActs } from '../steps/stage/reopen';
import type { Scan } from '../badge/scan-refused';
import { signScan } from '../steps/sign/sign';
import { itemsActs } from '../steps/tools/tray';
import { leavingScan, lookBackActs, backActs, reasonActs } from '../steps/stand-by/hand-over';
import { breakGrows, resumeActs, standByScan } from '../steps/stand-by/stand-by';
import { restoreActs, stageActs } from '../steps/stage/stage-work';
import { causeActs, componentActs, stopAndTag } from '../steps/stop/stop-work';
import { toolBackActs, toolOutActs } from '../steps/tools/tool-count';
import type { ScanWanted } from './view';
import { plain, words } from '../words/words';

type Heard = Extract<PackEvent, { type: 'COMMAND' | 'SIGHTED' | 'TICK' }>;
type Decided = Extract<PackEvent, { type: 'FILES' }> | Heard;

/** The acts of a phase's own, most expected first. */
function ownActs(here: Here): readonly Act[] {
  switch (here.phase) {
    case 'lookingOver':
      return [...lookOverActs(here), readListAct(here)];
    case 'countingToolsOut':
      return toolOutActs(here);
    case 'restoring':
      return restoreActs(here);
    case 'working':
      return stageActs(here);
    case 'waitingForInspector':
      return [readListAct(here)];
    case 'inspecting':
      return inspectingActs(here);
    case 'choosingFinding':
      return findingActs(here);
    case 'choosingPoint':
      return pointActs(here);
    case 'choosingStage':
      return backToActs(here);
    case 'choosingCause':
      return causeActs(here);
    case 'choosingComponent':
      return componentActs(here);
    case 'checkingTools':
    case 'countingToolsBack':
      return toolBackActs(here);
    case 'checkingItems':
      return itemsActs(here);
    case 'placingCard':
      return cardActs(here);
    case 'standingBy':
      return resumeActs(here);
    case 'handOverReason':
      return [...reasonActs(here), ...resumeActs(here)];
    case 'handOverLeaving':
      return [...backActs(here), ...resumeActs(here)];
    case 'handOverLook':
      return [...lookBackActs(here), ...resumeActs(here)];
    case 'readingBack':
      return readBackActs(here);
    default:
      return [];
  }
}

/** Exactly what is accepted here. */
export function actsOf(here: Here): readonly Act[] {
  const own = ownActs(here);
  switch (here.phase) {
    case 'recorded':
    case 'stopped':
    case 'readingBack':
    case 'choosingFinding':
    case 'choosingPoint':
    case 'choosingStage':
    case 'choosingCause':
    case 'choosingComponent':
    case 'handOverReason':
    case 'handOverLeaving':
    case 'handOverLook':
      return [...own, sayAgain(here)];
    case 'standingBy':
      return [...own, sayAgain(here), remaining(here)];
    case 'blocked':
      return [
        stopAndTag(here),
        ...reopenActs(here),
        sayAgain(here),
        remaining(here),
        // Somebody else may be able to go on.
        ...(here.task.kind === 'blocked' && here.task.again === true ? [standBy(here)] : []),
      ];
    case 'inspecting':
      return [...own, readListAct(here), sayAgain(here), remaining(here), standBy(here), stopAndTag(here)];
    default:
      return [
        ...own,
        sayAgain(here),
        remaining(here),
        standBy(here),
        ...correctionActs(here),
        ...reopenActs(here),
        ...callInspector(here),
        stopAndTag(here),
      ];
  }
}

/** What a scan would be taken for here. */
export function scanWantedIn({ phase, context }: Here): ScanWanted {
  switch (phase) {
    case 'identifying':
      return context.state.agreed === null ? 'component' : null;
    case 'waitingForInspector':
    case 'inspecting':
    case 'choosingFinding':
    case 'choosingPoint':
    case 'choosingStage':
      return 'inspector';
    case 'choosingCause':
    case 'choosingComponent':
    case 'readingBack':
      return context.presence === null ? null : 'inspector';
    case 'signing':
      return 'signature';
    case 'standingBy':
    case 'handOverLeaving':
      return 'handover';
    default:
      return null;
  }
}

/** Where an event leads from this phase; null when it is none of the pack's business. */
export function decide(phase: Phase, context: PackContext, event: Decided): Decision | null {
  const here = hereOf(phase, context);
  if (event.type === 'FILES') return takeFiles(here, event);
  const late = context.presence !== null && hasLapsed(context.presence, event.at);
  if (late) return lapse(here, event);
  if (event.type === 'TICK') return breakGrows(here, event.at);
  if (event.type === 'COMMAND') return command(here, event.command, event);
  return sighted(here, event);
}

function command(here: Here, given: Command, said: Said): Decision {
  const found = actsOf(here).find(({ legal }) => legal.name === given.name);
  if (found === undefined) return remarkOn(here, refusal(words`Not now: ${WORDING[given.name].label.toLowerCase()}.`));
  const { input } = found.legal;
  if (given.name === 'count' && input.kind === 'count' && input.noun !== given.noun) {
    return remarkOn(here, refusal(words`Not now: count ${given.noun}. Here, ${input.noun} are counted.`));
  }
  return found.take(given, said);
}

function sighted(here: Here, scan: Scan): Decision | null {
  const { meaning, id } = scan.sighting;
  const { seen } = here.context;
  const decision =
    meaning.kind === 'command' && !seen.includes(id)
      ? command(here, meaning.command, { channel: 'card', at: scan.at })
      : scanned(here, scan);
  return decision === null ? null : { ...decision, patch: { ...decision.patch, seen: [...seen, id] } };
}

function scanned(here: Here, scan: Scan): Decision | null {
  const { meaning } = scan.sighting;
  // The same card delivered twice was shown once.
  if (meaning.kind === 'command') return null;
  switch (scanWantedIn(here)) {
    case 'component':
      return identifyScan(here, scan);
    case 'inspector':
      return holdScan(here, scan);
    case 'signature':
      return signScan(here, scan);
    case 'handover':
      return here.phase === 'standingBy' ? standByScan(here, scan) : leavingScan(here, scan);
    case null:
      return unwanted(here, scan);
  }
}

/** Labels lie about on the table and are seen all the time; only what must have been meant is answered. */
function unwanted(here: Here, scan: Scan): Decision | null {
  const { meaning } = scan.sighting;
  if (meaning.kind === 'badge') return remarkOn(here, refusal(plain('Not now: no badge is wanted here.')));
  if (meaning.kind !== 'component' || here.context.readBack?.from !== 'identifying') return null;
  const { onAffirm } = here.context.readBack;
  const asked = onAffirm.kind === 'store' ? onAffirm.bodies[0] : undefined;
  const serial = asked?.kind === 'componentIdentified' ? asked.serial : '';
  const told = scanWhileReadBack(here, scan, serial);
  if (told === 'same') return null;
  if (told !== null) return told;
  return remarkOn(here, refusal(plain('One at a time: answer first.')));
}

/**
 * The time for a verdict is over: the inspector counts as gone at once, stored or not. A command that comes with it
 * came too late and does nothing; a badge is a new act and is looked at.
 */
function lapse(here: Here, event: Heard): Decision {
  const { presence } = here.context;
  if (presence === null) return remarkOn(here, warning(plain('No inspector is present.')));
  const { hold, inspector } = presence;
  const lapsed = draft(here.context, null, event.at, { kind: 'verdictLapsed', hold, inspector });
  const gone = { presence: null, readBack: null, finding: null, stopping: null, owed: [...here.context.owed, lapsed] };
  const waiting = hereOf('waitingForInspector', { ...here.context, ...gone });
  const next = event.type === 'SIGHTED' ? sighted(waiting, event) : null;
  if (next?.to === 'storing') return { to: 'storing', patch: { ...gone, ...next.patch } };
  const remark = warning(plain('The time for a verdict has run out. Scan the badge of the inspector again.'));
  const stored = store(waiting, [], { remark });
  return { to: 'storing', patch: { ...gone, ...next?.patch, ...stored.patch } };
}
