/**
 * A pack and a rehearsal, as the screens draw them. The pack computes them, so their types are the pack's; the screens
 * take them from here, so that what they depend on is in one folder.
 */
export type {
  Detail,
  FinalInspection,
  LegalCommand,
  MeasureView,
  Notice,
  PackView,
  Prompt,
  RehearsalView,
  ScanWanted,
  StepPrompt,
  StowLedgerView,
  TouchInput,
} from '../../packing/machine/view';
export { shownOf } from '../../packing/words/prompt-parts';
