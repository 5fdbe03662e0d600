// Finding a lesson. Without this, all of them stand there in order.
const data = JSON.parse(document.getElementById('data').textContent);
const query = document.getElementById('query');
if (query) {
  const cards = all('.card'), choices = all('select[data-at]'), slash = document.getElementById('slash');
  const count = document.getElementById('count'), nothing = document.getElementById('nothing');
  const reset = document.getElementById('reset');
  const filled = (text, slots) => text.replace(/\{([a-z]+)\}/g, (_, name) => slots[name]);

  // The same rules as sitesearch.folded, so that what is typed meets what was written.
  const signs = { sharp: '♯', flat: '♭', 'double sharp': '𝄪', 'double flat': '𝄫' };
  const folded = text => {
    let plain = text.toLowerCase().replaceAll('ß', 'ss').normalize('NFKD').replace(/\p{Mn}/gu, '');
    for (const [written, sign] of [['##', '𝄪'], ['#', '♯'], ['♯♯', '𝄪'], ['♭♭', '𝄫']]) {
      plain = plain.replaceAll(written, sign);
    }
    return plain.replace(/[^\p{L}\p{N}♯♭𝄪𝄫.,/]/gu, ' ').replace(/(?<![0-9])[.,/]|[.,/](?![0-9])/g, ' ')
      .split(' ').filter(Boolean).join(' ');
  };
  // A note that is said is one word here: F sharp is the tone, not every F and every sharp.
  const wordsOf = text => folded(text)
    .replace(/(?<!\S)([a-h]) ((?:double )?(?:sharp|flat))(?!\S)/g, (_, note, sign) => note + signs[sign])
    .split(' ').filter(Boolean);
  const isIn = (text, word) => {
    if (/[♯♭𝄪𝄫]/u.test(word)) return text.includes(` ${word} `);
    // Fis is not Fisis; but what begins like a tone may go on as a word.
    if (/^(?:[a-h][ie]s|[ae]s)$/.test(word)) {
      return new RegExp(`${word.length < 3 ? ' ' : ''}${word}(?!(?:is|es) )`).test(text);
    }
    if (text.includes(word.length < 3 ? ` ${word}` : word)) return true;
    return /^[a-g]bb?$/.test(word) && text.includes(` ${word[0]}${word.length > 2 ? '𝄫' : '♭'} `);
  };

  const FEW = 12;
  let opened = [];
  const explain = (shown, words) => {
    for (const { card, rows } of opened) {
      card.querySelector('details').open = false;
      rows.forEach(row => row.classList.remove('hit'));
    }
    opened = [];
    if (!words.length || shown.length > FEW) return;
    for (const index of shown) {
      const details = cards[index].querySelector('details');
      const outside = words.filter(word => !isIn(data.lessons[index][0], word));
      if (!details || !outside.length || details.open) continue;
      const rows = all('dl > div', details).filter(row => {
        const text = ` ${folded(row.textContent.replace(/\s+/g, ' '))} ${wordsOf(row.textContent).join(' ')} `;
        return outside.some(word => isIn(text, word));
      });
      details.open = true;
      rows.forEach(row => row.classList.add('hit'));
      opened.push({ card: cards[index], rows });
    }
  };
  const filter = () => {
    const words = wordsOf(query.value);
    const chosen = choices.filter(choice => choice.value).map(choice => [Number(choice.dataset.at), choice.value]);
    const shown = [];
    data.lessons.forEach((lesson, index) => {
      const isShown = chosen.every(([at, value]) => lesson[at] === value)
        && words.every(word => isIn(lesson[0], word) || isIn(lesson[1], word));
      cards[index].hidden = !isShown;
      if (isShown) shown.push(index);
    });
    explain(shown, words);
    const isAll = !words.length && !chosen.length;
    count.textContent = filled(isAll ? data.words['count-all'] : data.words.count,
      { shown: shown.length, total: cards.length });
    nothing.hidden = shown.length > 0;
    reset.hidden = isAll;
  };

  // The search stands in the address after #, so that it can be passed on.
  const write = () => {
    const kept = new URLSearchParams();
    if (query.value.trim()) kept.set('q', query.value.trim());
    for (const choice of choices) if (choice.value) kept.set(choice.id, choice.value);
    const hash = kept.toString();
    if (hash || location.hash.includes('=')) history.replaceState(null, '', hash ? `#${hash}` : '#');
  };
  const read = () => {
    if (location.hash && !location.hash.includes('=')) return;
    const kept = new URLSearchParams(location.hash.slice(1));
    query.value = kept.get('q') || '';
    for (const choice of choices) {
      const wanted = kept.get(choice.id) || '';
      choice.value = [...choice.options].some(option => option.value === wanted) ? wanted : '';
    }
    filter();
  };
  const changed = () => { filter(); write(); };
  const clear = () => {
    query.value = '';
    for (const choice of choices) choice.value = '';
    changed();
    query.focus();
  };
  query.addEventListener('input', changed);
  for (const choice of choices) choice.addEventListener('change', changed);
  reset.addEventListener('click', clear);
  query.addEventListener('keydown', event => {
    if (event.key !== 'Escape' || event.isComposing) return;
    event.preventDefault();
    query.value = '';
    changed();
  });
  window.addEventListener('hashchange', read);

  // A key of one sign can be switched off, for who speaks to the computer (WCAG 2.1.4).
  const kept = value => {
    try {
      if (value) localStorage.setItem('site-key', value);
      return localStorage.getItem('site-key');
    } catch { return value || null; }
  };
  slash.checked = kept() !== 'off';
  slash.addEventListener('change', () => kept(slash.checked ? 'on' : 'off'));
  document.addEventListener('keydown', event => {
    if (event.key !== '/' || !slash.checked || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.target.closest('input:not([type=checkbox]), select, textarea')) return;
    event.preventDefault();
    query.focus();
    query.select();
  });
  filter();
  read();
}
