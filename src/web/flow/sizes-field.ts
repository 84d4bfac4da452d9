/** Several lengths at a time: places on a plate, each across and up, and how wide it is where there are three. */
export interface SizesField {
  readonly kind: 'sizes';
  readonly at: string;
  readonly label: string;
  readonly count: 2 | 3;
  readonly example: string;
  readonly isNeeded?: boolean;
}
