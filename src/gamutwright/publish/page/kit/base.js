// What every page does: parts that need a script appear, and the reader chooses light or dark.
const all = (selector, within = document) => [...within.querySelectorAll(selector)];
for (const part of all('.needs-script:not(.reason)')) part.hidden = false;

// Light and dark: the reader's own setting until the button is pressed; remembered where that is allowed.
const theme = document.getElementById('theme');
const isDark = () => document.documentElement.dataset.theme
  ? document.documentElement.dataset.theme === 'dark' : matchMedia('(prefers-color-scheme: dark)').matches;
const remembered = value => {
  try {
    if (value) localStorage.setItem('lesson-theme', value);
    return localStorage.getItem('lesson-theme');
  } catch { return value || null; }
};
const before = remembered();
if (before === 'dark' || before === 'light') document.documentElement.dataset.theme = before;
const showTheme = () => theme.setAttribute('aria-pressed', String(isDark()));
theme.addEventListener('click', () => {
  document.documentElement.dataset.theme = isDark() ? 'light' : 'dark';
  remembered(document.documentElement.dataset.theme);
  showTheme();
});
matchMedia('(prefers-color-scheme: dark)').addEventListener('change', showTheme);
showTheme();
