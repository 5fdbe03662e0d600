// Music: pieces as rows of numbers, played at the tempo, in the bars and at the height that the reader chooses.
const music = document.getElementById('music');
if (music) {
  const by = id => document.getElementById(id);
  const select = by('piece'), button = by('music-play'), tempo = by('tempo'), height = by('height');
  const loop = by('loop'), from = by('bar-from'), to = by('bar-to'), said = by('bar-readout');
  const AHEAD_S = 0.08, FEWEST_S = 0.3;
  const calmly = matchMedia('(prefers-reduced-motion: reduce)');
  const buses = new Map();
  let noise = null;
  const piece = () => data.pieces[select.value];
  const bus = part => {
    if (!buses.has(part)) {
      const gain = context.createGain();
      gain.connect(mix);
      buses.set(part, gain);
    }
    return buses.get(part);
  };
  const isHeard = part => music.querySelector(`input[value="${part}"]`).checked;
  const balance = () => {
    for (const [part, gain] of buses) gain.gain.setTargetAtTime(isHeard(part) ? 1 : 0, context.currentTime, 0.02);
  };

  // Drums are noise through a filter: a brush a wide band of it, a wood block a narrow one.
  const strike = (drum, at, force) => {
    if (!noise) {
      noise = context.createBuffer(1, context.sampleRate, context.sampleRate);
      const samples = noise.getChannelData(0);
      let state = 1;
      for (let k = 0; k < samples.length; k += 1) {
        state = (Math.imul(state, 1103515245) + 12345) >>> 0;
        samples[k] = state / 2 ** 31 - 1;
      }
    }
    const isBrush = drum === 'brush', length = isBrush ? 0.18 : 0.09;
    const source = context.createBufferSource(), filter = context.createBiquadFilter();
    const shape = context.createGain(), fader = context.createGain();
    source.buffer = noise;
    filter.type = 'bandpass';
    filter.frequency.value = isBrush ? 4500 : 850;
    filter.Q.value = isBrush ? 0.7 : 18;
    shape.gain.setValueAtTime(0, at);
    shape.gain.linearRampToValueAtTime(force * (isBrush ? 0.5 : 3), at + (isBrush ? 0.01 : 0.003));
    shape.gain.setTargetAtTime(0, at + 0.012, length / 4);
    source.connect(filter).connect(shape).connect(fader).connect(bus('drum'));
    source.start(at, (at * 7) % 0.7);
    source.stop(at + 2 * length);
    keep(source, fader);
  };

  const ring = (x, y) => {
    const picture = by(`stave-${select.value}`)?.querySelector('svg');
    if (!picture || x === undefined) return;
    const circle = document.createElementNS('http://www.w3.org/2000/svg', 'circle');
    circle.setAttribute('class', 'at-note');
    circle.setAttribute('cx', x);
    circle.setAttribute('cy', y);
    circle.setAttribute('r', 22);
    picture.append(circle);
    const box = by(`stave-${select.value}`);
    const at = (x - picture.viewBox.baseVal.x) * picture.clientWidth / picture.viewBox.baseVal.width;
    if (at < box.scrollLeft + 30 || at > box.scrollLeft + box.clientWidth - 60) {
      box.scrollTo({ left: at - 60, behavior: calmly.matches ? 'auto' : 'smooth' });
    }
  };

  const bars = () => {
    const most = piece().bars.length;
    const first = Math.min(most, Math.max(1, Math.round(Number(from.value)) || 1));
    return [first - 1, Math.max(first, Math.min(most, Math.round(Number(to.value)) || most))];
  };
  const pass = begin => {
    const it = piece(), [first, last] = bars(), up = Number(height.value);
    const unit = 60 / (Number(tempo.value) * it.beat), low = first * it.bar, high = last * it.bar;
    const when = start => begin + (start - low) * unit;
    const inside = start => start >= low && start < high;
    const ratio = 2 ** (up / data.divisions);
    for (const part of it.parts) bus(part);
    balance();
    for (const [start, length, freq, force, part] of it.notes) {
      // A tone that began before still sounds.
      const cut = Math.max(start, low);
      if (cut < Math.min(high, start + length)) {
        sound(freq * ratio, when(cut), (Math.min(high, start + length) - cut) * unit, force, bus(part), part);
      }
    }
    for (const [start, drum, force] of it.taps) if (inside(start)) strike(drum, when(start), force);
    const later = (at, what) => timers.push(setTimeout(what, Math.max(0, 1000 * (at - context.currentTime))));
    it.lit.forEach(([start, length, step, x, y]) => {
      if (!inside(start)) return;
      later(when(start), () => { light(step + up, step); ring(x, y); });
      later(when(start + length) - 0.02, () => light(null));
    });
    for (let bar = first; bar < last; bar += 1) {
      later(when(bar * it.bar), () => { said.textContent = it.bars[bar]; });
    }
    const end = when(high);
    if (loop.checked) later(end - AHEAD_S, () => pass(Math.max(end, context.currentTime)));
    else later(end + FEWEST_S, stop);
  };
  button.addEventListener('click', () => {
    const was = pressed;
    start();
    stop();
    if (was === button) return;
    pressed = button;
    button.dataset.label = button.textContent;
    button.textContent = data.words.stop;
    button.setAttribute('aria-pressed', 'true');
    pass(context.currentTime + (context instanceof OfflineAudioContext ? 0 : AHEAD_S));
  });

  const tellTempo = () => {
    const words = data.tempi[1 + Number(tempo.value) - data.tempi[0]];
    by('tempo-readout').textContent = words;
    tempo.setAttribute('aria-valuetext', words);
  };
  const choose = () => {
    if (context) stop();
    const it = piece();
    for (const box of all('.stave', music)) box.hidden = box.id !== `stave-${select.value}`;
    for (const label of all('[data-part]', music)) label.hidden = !it.parts.includes(label.dataset.part);
    for (const field of [from, to]) field.max = it.bars.length;
    from.value = 1;
    to.value = it.bars.length;
    tempo.value = it.tempo;
    said.textContent = it.bars[0];
    tellTempo();
  };
  select.addEventListener('change', choose);
  tempo.addEventListener('input', tellTempo);
  for (const box of all('.parts input', music)) box.addEventListener('change', () => { if (context) balance(); });
  for (const field of [from, to]) {
    field.addEventListener('change', () => {
      const [first, last] = bars();
      from.value = first + 1;
      to.value = last;
      if (pressed === button) { stop(); button.click(); }
    });
  }
  choose();
}

// The ear: one question at a time, in an order of the reader's own; the score stays in this browser.
const drills = all('.drill');
if (drills.length) {
  const place = `lesson-ear-${data.slug}`, score = document.getElementById('ear-score');
  let held = { right: 0, asked: 0 }, at = 0;
  try {
    const before = JSON.parse(localStorage.getItem(place));
    if (Number.isInteger(before?.right) && Number.isInteger(before?.asked)) held = before;
  } catch { /* Where nothing may be kept, the score lasts as long as the page. */ }
  const tellScore = () => {
    try { localStorage.setItem(place, JSON.stringify(held)); } catch { /* as above */ }
    score.textContent = held.asked
      ? data.said['ear-score'].replace('{right}', held.right).replace('{asked}', held.asked) : '';
  };
  for (const drill of drills) {
    const choices = all('.choice', drill), told = all('.told', drill);
    const listen = drill.querySelector('.listen');
    listen.addEventListener('click', () => {
      const was = pressed;
      start();
      stop();
      if (was === listen) return;
      const now = context.currentTime;
      const ends = data.ear[drill.id].map(([start, length, freq, force]) => sound(freq, now + start, length, force));
      hold(listen, Math.max(...ends) - now);
    });
    choices.forEach((choice, index) => {
      choice.addEventListener('click', () => {
        const isRight = 'right' in choice.dataset;
        if (!('answered' in drill.dataset)) {
          drill.dataset.answered = '';
          held = { right: held.right + Number(isRight), asked: held.asked + 1 };
          tellScore();
        }
        choice.classList.add(isRight ? 'yes' : 'no');
        told.forEach((reason, k) => { reason.hidden = k !== index; });
      });
    });
  }
  document.getElementById('ear-next').addEventListener('click', () => {
    if (context) stop();
    const drill = drills[at];
    drill.hidden = true;
    delete drill.dataset.answered;
    for (const reason of all('.told', drill)) reason.hidden = true;
    for (const choice of all('.choice', drill)) choice.classList.remove('yes', 'no');
    at = (at + 1) % drills.length;
    drills[at].hidden = false;
    drills[at].querySelector('h3').focus();
  });
  document.getElementById('ear-forget').addEventListener('click', () => {
    held = { right: 0, asked: 0 };
    tellScore();
  });
  tellScore();
}
