import type { Context } from 'hono';
import { Hono } from 'hono';
import { palettes, panelPages, panelSheet } from '#book';
import type { ToCut } from '#crew';
import type { FlatPattern } from '#panels';
import { dxfText, pdfBytes, svgText } from '#paper';
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
      const wish = { inches: c.req.query('unit') === 'in', ...(name === undefined ? {} : { car: name }) };
      if (ending === 'dxf') return file(c, dxfText({ patterns }), 'application/dxf', `${panel}.dxf`);
      if (ending === 'svg')
        return c.body(svgText(panelSheet(patterns[0]!, wish), palettes.paper), 200, {
          'content-type': 'image/svg+xml; charset=utf-8',
          'content-security-policy': "default-src 'none'; style-src 'unsafe-inline'",
        });
      const paper = papers.find((size) => size === c.req.query('paper')) ?? 'A4';
      const pages = patterns.flatMap((pattern) => panelPages(pattern, { ...wish, paper }));
      const bytes = await pdfBytes(pages, { title: panel, palette: palettes.paper });
      return file(c, bytes, 'application/pdf', `${panel}.pdf`);
    });
}

async function toCut(desk: Desk, id: string): Promise<{ readonly cut: ToCut; readonly name: string | undefined }> {
  const { car } = await desk.shelf.openCar(id);
  return { cut: await desk.toCut(id, car), name: car.name };
}

function flatsOf({ panels }: ToCut, id: string): readonly FlatPattern[] {
  const layout = panels.find(({ panel }) => panel.id === id);
  if (layout === undefined) throw new RequestFault(404, `there is no panel "${id.slice(0, 80)}" in this car`);
  if (layout.flats.length === 0)
    throw new RequestFault(
      422,
      layout.findings[0]?.text ?? `${id} cannot be laid flat yet: it wants three corners or more`,
    );
  return layout.flats;
}

function file(c: Context, body: string | Uint8Array, type: string, name: string): Response {
  const bytes = typeof body === 'string' ? new TextEncoder().encode(body) : body;
  return c.body(bytes.slice().buffer, 200, {
    'content-type': type,
    // Ids are letters, digits, - and _, in any script: the plain name is for what reads no other.
    'content-disposition': `attachment; filename="${name.replaceAll(/[^\w.-]/gu, '_')}"; filename*=UTF-8''${encodeURIComponent(name)}`,
  });
}
