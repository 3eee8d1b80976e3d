// @ts-check
/** Packages of the system that tests need, installed where the system is Debian and lets us. */
import { existsSync, readFileSync } from 'node:fs';
import { run } from './house.mjs';

export const isRoot = () => process.getuid?.() === 0;

/** Debian itself or a system made from it; Ubuntu's chromium package is only a pointer to a snap. */
export const isDebian = () => {
  if (!existsSync('/etc/os-release') || !existsSync('/usr/bin/apt-get')) return false;
  const words = readFileSync('/etc/os-release', 'utf8')
    .split('\n')
    .filter((line) => /^ID(_LIKE)?=/.test(line))
    .flatMap((line) => line.replace(/^.*=/, '').replaceAll('"', '').split(' '));
  return words.includes('debian') && !words.includes('ubuntu');
};

/**
 * Installs packages, as root or by a sudo that asks for nothing; else does nothing. What could not be
 * installed the caller finds missing.
 * @param {readonly string[]} packages
 */
export const installPackages = async (packages) => {
  const sudo = isRoot() ? [] : ['sudo', '-n'];
  if (!isRoot() && (await run('sudo', ['-n', 'true'], { quiet: true })).code !== 0) return;
  console.log(`Installing Debian’s ${packages.join(', ')} for the tests (once) …`);
  for (const step of [['update'], ['install', '-y', ...packages]]) {
    const [command = '', ...args] = [...sudo, 'env', 'DEBIAN_FRONTEND=noninteractive', 'apt-get'];
    const { code, output } = await run(command, [...args, '-qq', ...step], { quiet: true });
    if (code !== 0) console.error(output);
  }
};
