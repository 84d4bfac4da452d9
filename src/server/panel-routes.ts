import type { Context } from 'hono';
import { Hono } from 'hono';
import type { ToCut } from '#crew';
import type { FlatPattern } from '#panels';
import { nestFile, type PanelEnding, panelFile, type PanelFileWish } from '#paper';
import { pathText } from './body.ts';
import type { Desk } from './desk.ts';
import { RequestFault } from './request-fault.ts';

const papers = ['A4', 'A3', 'Letter'] as const;

/** What there is to cut: the panels and levers of a car as they stand, and each flat as a file to cut or print from. */
export function panelRoutes(desk: Desk) {
  return new Hono()
    .get('/:id/cut', async (c) => c.json((await toCut(desk, pathText(c, 'id'))).cut))
    .get('/:id/panels/:file{.+[.](?:svg|dxf|pdf)}', async (c) => {
      const id = pathText(c, 'id');
      const [, panel = '', ending = ''] = /^(.*)[.]([a-z]+)$/u.exec(pathText(c, 'file'))!;
      const { cut, name } = await toCut(desk, id);
      const patterns = flatsOf(cut, panel);
      const wish = wishOf(c, name);
      return written(c, panel, ending as PanelEnding, await panelFile(patterns, ending as PanelEnding, wish));
    })
    .get('/:id/sheets/:file{panels[.](?:svg|dxf|pdf)}', async (c) => {
      const ending = pathText(c, 'file').split('.')[1] as PanelEnding;
      const { car } = await desk.shelf.openCar(pathText(c, 'id'));
      const nest = await desk.onSheets(pathText(c, 'id'), car);
      if (nest.sheets.length === 0)
        throw new RequestFault(
          422,
          nest.left.length === 0
            ? 'no panel of this car lies flat yet'
            : `no sheet at hand has room for ${nest.left.join(', ')}`,
        );
      return written(c, 'panels-on-sheets', ending, await nestFile(nest, ending, wishOf(c, car.name)));
    });
}

const wishOf = (c: Context, car: string | undefined): PanelFileWish => ({
  inches: c.req.query('unit') === 'in',
  paper: papers.find((size) => size === c.req.query('paper')) ?? 'A4',
  ...(car === undefined ? {} : { car }),
});

const kinds = { dxf: 'application/dxf', pdf: 'application/pdf' } as const;

/** An SVG is looked at in the browser; what is cut or printed from is saved. */
function written(c: Context, name: string, ending: PanelEnding, body: string | Uint8Array): Response {
  if (ending !== 'svg') return file(c, body, kinds[ending], `${name}.${ending}`);
  return new Response(body as string, {
    headers: {
      'content-type': 'image/svg+xml; charset=utf-8',
      'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'",
    },
  });
}

async function toCut(desk: Desk, id: string): Promise<{ readonly cut: ToCut; readonly name: string | undefined }> {
  const { car } = await desk.shelf.openCar(id);
  return { cut: await desk.toCut(id, car), name: car.name };
}

function flatsOf({ panels }: ToCut, id: string): readonly FlatPattern[] {
  // A split panel is all its pieces.
  const layouts = panels.filter(({ panel }) => panel.id === id);
  const flats = layouts.flatMap((layout) => layout.flats);
  if (layouts.length === 0) throw new RequestFault(404, `there is no panel "${id.slice(0, 80)}" in this car`);
  if (flats.length === 0)
    throw new RequestFault(
      422,
      layouts[0]!.findings[0]?.text ?? `${id} cannot be laid flat yet: it wants three corners or more`,
    );
  return flats;
}

function file(c: Context, body: string | Uint8Array, type: string, name: string): Response {
  const bytes = typeof body === 'string' ? new TextEncoder().encode(body) : body;
  return c.body(bytes.slice().buffer, 200, {
    'content-type': type,
    // Ids are letters, digits, - and _, in any script: the plain name is for what reads no other.
    'content-disposition': `attachment; filename="${name.replaceAll(/[^\w.-]/gu, '_')}"; filename*=UTF-8''${encodeURIComponent(name)}`,
  });
}
