import { launch, settled, visit, go } from './browser.mjs';
import { openProgram, workplace } from './program.mjs';
const place = workplace();
const [browser, program] = await Promise.all([launch(), openProgram(place, '--today', process.argv[3] ?? '2026-02-02')]);
const W = [['phone', 390, 844], ['laptop', 1366, 768], ['desk', 1920, 1080]];
const views = (process.argv[2] ?? 'letter,ask/today,ask,write').split(',');
for (const language of (process.argv[4] ?? 'en,id').split(','))
  for (const [size, width, height] of W) {
    const v = await visit(browser, program, { width, height, language });
    for (const view of views) {
      await go(v.page, '#' + view);
      if (view === 'map') await v.page.waitForTimeout(3000);
      await v.page.waitForTimeout(300);
      await v.page.screenshot({ path: `/tmp/pg/${view.replace('/', '-')}-${size}-${language}.png`, fullPage: view !== 'map' && size !== 'desk' , animations: 'disabled' });
    }
    await v.page.context().close();
  }
await browser.close(); await program.end(); place.remove();
