/** What is packed, and by which procedure. */
import type { Folds } from './folding';

export const IDENTITY_FOLDS: Folds<
  'componentIdentified' | 'scanRefused' | 'assemblyAgreed' | 'procedureInForce' | 'inspected'
> = {
  componentIdentified: (folding, { body }) => {
    folding.identified.set(body.component, body.serial);
  },
  scanRefused: (folding, { body }) => {
    if (body.reason === 'marks-disagree') folding.markConflicts = [...folding.markConflicts, body.detail];
  },
  assemblyAgreed: (folding, { body: { assembly, procedure, revision, digest = null } }) => {
    folding.agreed = { assembly, procedure, revision, digest };
  },
  // The first is what was agreed; files that come later change it no more.
  procedureInForce: (folding, { body: { procedure } }) => {
    const { agreed } = folding;
    if (folding.frozen !== null || agreed === null || procedure === null) return;
    if (procedure.id === agreed.procedure && procedure.revision === agreed.revision) folding.frozen = procedure;
  },
  inspected: (folding, { body: { component, serial, result, finding } }) => {
    folding.inspected.set(component, { serial, result, finding });
  },
};
