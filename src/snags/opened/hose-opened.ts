import { assemblyPressureBar, type WayPiece } from '#lines';
import { describeSource } from '#sources';
import { dutyNeeds, fittingRule, type HoseRow, type TubeRow } from '#standards';
import type { OpenedAt } from './opened-at.ts';
import type { OpenedInput, OpenedNumber, OpenedRule } from './opened-number.ts';
import { mm, withUnit } from './opened-units.ts';
import { countedRule, ownRule, publishedRule } from './rule-words.ts';

/** Hoses of the snag's way, or of the line where no way stands. */
function hosesOf({ shelf, way, line }: OpenedAt): HoseRow[] {
  const ids = [...(way?.pieces ?? []), ...(line?.pieces ?? [])].flatMap((piece) => piece.hose ?? []);
  return [...new Set(ids)].flatMap((id) => shelf.findHose(id) ?? []);
}

/** Rows of hard tube in the sizes of the line. */
function tubesOf({ shelf, line }: OpenedAt): TubeRow[] {
  const sizes = (line?.pieces ?? []).flatMap(({ tube }) => tube ?? []);
  return shelf.tubes.filter((row) => sizes.some((tube) => tube.odMm === row.odMm && tube.wallMm === row.wallMm));
}

const rowsOf = (at: OpenedAt): (HoseRow | TubeRow)[] => [...hosesOf(at), ...tubesOf(at)];

/** The figure the line gives, else the duty's usual one. */
function asked(
  { line }: OpenedAt,
  key: 'pressureBar' | 'vacuumBar' | 'temperatureC',
  usual: number,
  unit: string,
): OpenedInput[] {
  if (line === undefined) return [];
  const name = ASKED[key];
  const own = line[key];
  return own === undefined
    ? [
        {
          name,
          value: withUnit(usual, unit),
          from: `usual for ${line.duty}: ${describeSource(dutyNeeds(line.duty).source)}`,
        },
      ]
    : [{ name, value: withUnit(own, unit), from: 'you, on the line' }];
}

const ASKED = {
  pressureBar: 'highest working pressure of the line',
  vacuumBar: 'deepest vacuum on the line',
  temperatureC: 'hottest that runs in it',
} as const;

/** A figure of the catalogue as a rule: of the row that it stands in, or only the usual hose's. */
function rowRule(at: OpenedAt, text: string, ofHose: keyof HoseRow): OpenedRule {
  const [first] = rowsOf(at);
  if (first === undefined) return countedRule(text);
  const isAssumed = hosesOf(at).some((row) => row.assumed?.some((key) => key === ofHose));
  return isAssumed
    ? publishedRule(
        `${text}; the row does not say it, the usual hose's figure stands in: ask its maker`,
        'common-practice',
      )
    : publishedRule(text, first.source);
}

export function pressureOpened(at: OpenedAt): OpenedNumber {
  const { line, snag } = at;
  const ends = hosesOf(at).map((hose): OpenedInput => {
    const { bar, weakest } = assemblyPressureBar(hose, []);
    return {
      name: `${hose.id} stands`,
      value: withUnit(bar, 'bar'),
      from: `${weakest}: ${describeSource(hose.source)}`,
    };
  });
  const tubes = tubesOf(at).map((row) => ({
    name: `${row.name} stands`,
    value: withUnit(row.pressureBar, 'bar'),
    from: describeSource(row.source),
  }));
  return {
    equation: 'highest working pressure <= the least of what hose, tube and ends stand',
    inputs: [
      ...(line === undefined ? [] : asked(at, 'pressureBar', dutyNeeds(line.duty).pressureBar, 'bar')),
      ...ends,
      ...tubes,
      ...(snag.limit === undefined ? [] : [{ name: 'the weakest of them', value: withUnit(snag.limit, 'bar') }]),
    ],
    range:
      'gauge pressure, steady; blows above it are not in it. A made line is proved with liquid before it is fitted',
    formulas: tubes.length > 0 ? ['thin-tube-wall'] : [],
    rule: rowRule(at, 'an assembly stands what the weakest of its hose and ends stands', 'pressureBar'),
  };
}

export function temperatureOpened(at: OpenedAt): OpenedNumber {
  const { line } = at;
  const need = line === undefined ? undefined : dutyNeeds(line.duty);
  return {
    equation: 'coldest that the hose is good for <= what runs in it and lies round it <= hottest that it stands',
    inputs: [
      ...(need === undefined ? [] : asked(at, 'temperatureC', need.maxC, '°C')),
      ...(need === undefined
        ? []
        : [{ name: 'coldest it may stand at', value: withUnit(need.minC, '°C'), from: `usual for ${need.duty}` }]),
      ...rowsOf(at).map((row) => ({
        name: `${row.id} is good for`,
        value: 'minC' in row ? `${row.minC} to ${row.maxC} °C` : `up to ${row.maxC} °C`,
        from: describeSource(row.source),
      })),
      ...(line?.sleeve === undefined
        ? []
        : [
            {
              name: 'a sleeve adds',
              value: withUnit(fittingRule('sleeve-credit').value, '°C'),
              from: 'it buys time in a fire only',
            },
          ]),
    ],
    range: 'steady temperature of what runs in it; heat from beside it after switching off is not in it',
    formulas: [],
    rule: rowRule(at, 'no hotter and no colder than the row of the catalogue says', 'maxC'),
  };
}

export function vacuumOpened(at: OpenedAt): OpenedNumber {
  const { line } = at;
  const isUnknown = hosesOf(at).some((row) => row.vacuumBar === null);
  return {
    equation: 'deepest vacuum on the line <= vacuum that the hose stands without being drawn flat',
    inputs: [
      ...(line === undefined
        ? []
        : asked(at, 'vacuumBar', dutyNeeds(line.duty).vacuumBar, 'bar below the air outside')),
      ...hosesOf(at).map((row) => ({
        name: `${row.id} stands`,
        value: row.vacuumBar === null ? 'not known' : withUnit(row.vacuumBar, 'bar'),
        from: describeSource(row.source),
      })),
    ],
    range: 'hot, at the bend it has; a hose near its least bend radius goes flat sooner',
    formulas: [],
    rule:
      isUnknown && line !== undefined
        ? publishedRule('a suction hose has a vacuum rating of its own', dutyNeeds(line.duty).source)
        : rowRule(at, 'no deeper than the row of the catalogue says', 'vacuumBar'),
  };
}

export function fluidOpened(at: OpenedAt): OpenedNumber {
  const { line } = at;
  const need = line === undefined ? undefined : dutyNeeds(line.duty);
  return {
    equation: 'what the line carries stands in the list of what the hose or tube is for',
    inputs: [
      ...(need === undefined ? [] : [{ name: 'the line carries', value: need.fluid, from: `its duty, ${need.duty}` }]),
      ...rowsOf(at).map((row) => ({
        name: `${row.id} is for`,
        value: row.fluids.join(', '),
        from: describeSource(row.source),
      })),
      ...(need?.conductiveLiner === true
        ? hosesOf(at).map((row) => ({
            name: `liner of ${row.id} leads static away`,
            value: row.conductive === null ? 'not known' : row.conductive ? 'yes' : 'no',
          }))
        : []),
    ],
    range: 'fluids by their kind; additives are for the maker of the hose to answer',
    formulas: [],
    rule:
      at.snag.kind.startsWith('hose-static') && need !== undefined
        ? publishedRule(`a hose for ${need.fluid} leads static away through its liner`, need.source)
        : rowRule(at, 'the row of the catalogue lists what it is for', 'fluids'),
  };
}

const pieceName = (piece: WayPiece, i: number): string => `piece ${i + 1}, ${piece.hose ?? 'tube'}`;

export function bendOpened(at: OpenedAt): OpenedNumber {
  const pieces = at.way?.pieces ?? [];
  const inside = hosesOf(at).filter((row) => row.radiusMeasured === 'inside');
  return {
    equation: 'tightest radius of the centreline as it hangs >= least radius that hose or bender allows',
    inputs: pieces.flatMap((piece, i) => [
      { name: `${pieceName(piece, i)}: bends to`, value: mm(piece.tightestBendMm), from: 'as it hangs, worked out' },
      {
        name: `${pieceName(piece, i)}: may`,
        value: mm(piece.minBendRadiusMm),
        from:
          piece.hose === undefined
            ? 'bender, on the line'
            : describeSource(at.shelf.findHose(piece.hose)?.source ?? 'the catalogue'),
      },
    ]),
    range: 'to the centreline, as hung and without pressure, known to 0.3 %; pressure straightens a hose a little',
    formulas: [...(inside.length > 0 ? ['centreline-radius'] : []), 'bend-arc', 'slack-bend-radius'],
    rule: rowRule(at, 'a hose bends no tighter than its row of the catalogue says', 'minBendRadiusMm'),
  };
}

export function matingOpened(at: OpenedAt): OpenedNumber {
  const { car, line } = at;
  const ends = line === undefined ? [] : [line.from, line.to];
  const inputs = ends.flatMap((ref): OpenedInput[] => {
    const [id, portId] = ref.split('.');
    const end = car.parts.find((part) => part.id === id)?.ports.find((port) => port.id === portId)?.end;
    if (end === undefined) return [];
    const size = [
      end.dash === undefined ? undefined : `-${end.dash}`,
      end.thread,
      end.pipe,
      end.odMm === undefined ? undefined : mm(end.odMm),
    ].filter((word) => word !== undefined);
    return [{ name: ref, value: [end.type, ...size].join(' '), from: 'as measured on the part' }];
  });
  const sizes = hosesOf(at).map((row) => ({
    name: `${row.id}: size, bore`,
    value: `${row.dash === undefined ? '' : `-${row.dash}, `}${mm(row.boreMm)}`,
    from: describeSource(row.source),
  }));
  const wanted: OpenedInput[] = [
    ...(line?.dash === undefined
      ? []
      : [{ name: 'size of the line', value: `-${line.dash}`, from: 'you, on the line' }]),
    ...(line?.boreMm === undefined
      ? []
      : [{ name: 'bore of the line', value: mm(line.boreMm), from: 'you, on the line' }]),
  ];
  return {
    equation:
      'both halves of every joint have one thread, one seat and one size; the bore is within a tenth of the one asked',
    inputs: [...inputs, ...wanted, ...sizes],
    range: 'threads and seats of the catalogue, and of your own rows; what fits by hand and does not seal is not in it',
    formulas: ['dash-tube-od'],
    rule: /^hose-(?:size|bore)$/u.test(at.snag.kind)
      ? ownRule('size and bore of the line are yours to say', 'you, on the line')
      : {
          text: 'only what is made to seal on each other is joined',
          whose: 'the rows of threads and seats in the catalogue, each with its own source',
          known: 'as those rows say; most are second-hand',
        },
  };
}
