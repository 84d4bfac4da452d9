import { leverSources } from './lever-sources.ts';
import { sheetSources } from './sheet-sources.ts';
import { toolSources } from './tool-sources.ts';

/** Works that sheet metal, levers and tools come from: a part of the one bibliography. */
export const shopSources = [...sheetSources, ...leverSources, ...toolSources] as const;
