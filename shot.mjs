import { chromium } from 'playwright-core';
const b = await chromium.launch({ executablePath: '/usr/bin/chromium', args: ['--no-sandbox','--disable-gpu','--disable-quic','--disable-background-networking'] });
const jobs = JSON.parse(process.argv[2]);
for (const { n, hash, w = 1366, h = 900, dark = false, inch = false, wait = 6000, act } of jobs) {
  const ctx = await b.newContext({ viewport: { width: w, height: h }, colorScheme: dark ? 'dark' : 'light', ...(w < 500 ? { isMobile: false } : {}) });
  await ctx.addInitScript((inch) => { localStorage.setItem('fairlead-person','Sam'); if (inch) localStorage.setItem('fairlead-tape-unit','in'); }, inch);
  const p = await ctx.newPage();
  p.on('pageerror', (e) => console.log(n, 'ERR', e.message));
  await p.goto('http://127.0.0.1:8791/' + hash);
  await p.waitForTimeout(wait);
  if (act) await p.evaluate(act);
  if (act) await p.waitForTimeout(1500);
  await p.screenshot({ path: `/tmp/cut/shots/${n}.png` });
  await ctx.close();
}
await b.close();
