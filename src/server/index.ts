// What does the screen ask, and who answers it: HTTP and live updates on one shelf of cars.
export { type App, app, type AppParts } from './app.ts';
export { ReadyCar } from './ready-car.ts';
export { type Behind, Desk, type StandingCar } from './desk.ts';
export { type JobNow, Jobs } from './jobs.ts';
export { type News, NewsDesk } from './news.ts';
export { serve, ServeFault, type ServeWish, type Serving } from './serve.ts';
export { Tried } from './tried.ts';
