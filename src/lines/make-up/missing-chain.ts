import { type End, describeEnd, endTypes, mates } from '#standards';
import { mostAdapters } from './mating-chains.ts';
import type { PortEnd } from './port-end.ts';

const distinct = (texts: readonly string[]): string => [...new Set(texts)].join(' or ');

/** Which part would be needed and is not in the catalogue, in one line. */
export function missingChain(port: PortEnd, wantedOn: readonly End[]): string {
  const wanted = distinct(wantedOn.map((end) => describeEnd(counterpart(end))));
  return `no adapter from ${describeEnd(port.end)} to ${wanted} in the catalogue, in one piece or up to ${mostAdapters}: wanted ${describeEnd(counterpart(port.end))} x ${wanted}`;
}

/** The end that goes on this one; the end itself where the trade has none. */
function counterpart(end: End): End {
  const others = endTypes.map((type): End => ({ ...end, type }));
  return others.find((other) => mates(end, other).ok) ?? end;
}
