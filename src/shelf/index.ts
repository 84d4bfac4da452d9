// Where do cars live, so that no change a builder made is ever lost?
export type { EditWish, KeptCar, KeptOrNot, ScanRow, Shelf, ShelvedCar, Shop, Step } from './shelf.ts';
