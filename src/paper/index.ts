// How does a drawing become a file: SVG, DXF, PDF.
export { type DxfWish, dxfText } from './dxf-text.ts';
export { nestFile, type PanelEnding, panelFile, type PanelFileWish } from './panel-files.ts';
export { pdfBytes, type PdfWish } from './pdf-file.ts';
export { svgText } from './svg-text.ts';
