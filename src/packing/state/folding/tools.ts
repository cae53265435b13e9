/** Counts of tools and of temporary items. */
import type { Folds } from './folding';

export const TOOL_FOLDS: Folds<'toolIssued' | 'toolAccounted' | 'toolReturned' | 'itemsAccounted'> = {
  toolIssued: (folding, { body }) => {
    folding.toolsOut.set(body.tool, body.count);
  },
  toolAccounted: (folding, { body }) => {
    folding.toolsAccounted.set(body.tool, body.count);
  },
  toolReturned: (folding, { body }) => {
    folding.toolsBack.set(body.tool, body.count);
  },
  itemsAccounted: (folding, { body }) => {
    folding.itemsAccounted.add(body.before);
  },
};
