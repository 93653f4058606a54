import { existsSync } from 'node:fs';
import { chromium, type Browser } from 'playwright-core';

/** Where the system keeps a Chromium, on the systems tests run on. */
const SYSTEM_BROWSERS = [
  '/usr/bin/chromium',
  '/usr/bin/chromium-browser',
  '/usr/bin/google-chrome',
  '/usr/bin/google-chrome-stable',
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
];

/** As root a browser has no sandbox to use, and will not start without being told so. */
const SANDBOX = process.getuid?.() === 0 ? ['--no-sandbox'] : [];

/**
 * Starts the machine's Chromium or Chrome; on Linux x64 without one, the Chromium that comes through npm with its
 * own libraries. `CHROME_PATH` overrides the choice.
 * @throws an ordinary Error when there is no browser at all
 */
export async function launchBrowser(): Promise<Browser> {
  const system = [process.env.CHROME_PATH ?? '', ...SYSTEM_BROWSERS].find(
    (path) => path !== '' && existsSync(path),
  );
  if (system !== undefined) return chromium.launch({ executablePath: system, args: SANDBOX });
  // The package unpacks the libraries that a bare machine lacks only where this names a runtime it was made for.
  process.env['AWS_EXECUTION_ENV'] ??= 'AWS_Lambda_nodejs22.x';
  const { default: bundled } = await import('@sparticuz/chromium');
  return chromium.launch({
    executablePath: await bundled.executablePath(),
    args: [...bundled.args, ...SANDBOX],
  });
}
