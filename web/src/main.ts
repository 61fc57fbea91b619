import { mount } from 'svelte';
import App from './App.svelte';
import { live } from './api/live.svelte';
import './page.css';
import { route } from './views/route.svelte';
import { words } from './words/words.svelte';

async function start(): Promise<void> {
  // The key in the address has done its work once the page is here.
  if (location.search.includes('key=')) history.replaceState(null, '', location.pathname + location.hash);
  route.read();
  const chosen = words.chosen();
  const early = chosen ? words.use(chosen).catch(() => undefined) : undefined;
  await live.ask();
  await (early ?? words.use(live.state?.language === 'id' ? 'id' : 'en').catch(() => undefined));
  if (!words.ready) {
    // Refused or gone before a single word came: the one sentence that must stand in the page itself.
    const line = document.getElementById('no-words');
    if (line) line.hidden = false;
    setTimeout(() => void start(), 1000);
    return;
  }
  const target = document.getElementById('page');
  if (!target) return;
  target.replaceChildren();
  mount(App, { target });
  live.start();
}

void start();
