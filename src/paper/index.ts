// How does a drawing become a file: SVG now.
export { svgText } from './svg-text.ts';
