// What moves and sounds on the page. Words, pictures and the film are there without it.
const data = JSON.parse(document.getElementById('data').textContent);
for (const part of all('.answers')) part.hidden = true;

// Sound: every tone fades in and out; all pass a compressor, are clipped at full scale, and only then made as loud as
// the reader chose, at the most LOUDEST, which is 12 dB below full scale. Nothing that is pressed can exceed that.
const LOUDEST = 0.25, MIX = 0.36, FADE_S = 0.02, TONE_S = 0.9, STEP_S = 0.45;
const film = document.getElementById('film');
const volume = document.getElementById('volume');
let context = null, mix = null, master = null, playing = [], timers = [], pressed = null;
const level = () => LOUDEST * Math.min(1, Math.max(0, Number(volume.value)));
const start = () => {
  if (!context) {
    context = new AudioContext();
    mix = context.createGain();
    mix.gain.value = MIX;
    const compressor = context.createDynamicsCompressor(), ceiling = context.createWaveShaper();
    compressor.threshold.value = -18;
    compressor.ratio.value = 8;
    ceiling.curve = new Float32Array([-1, 0, 1]);
    master = context.createGain();
    mix.connect(compressor).connect(ceiling).connect(master).connect(context.destination);
  }
  master.gain.value = level();
  if (context.state === 'suspended') context.resume();
  if (film && !film.paused) film.pause();
};
volume.addEventListener('input', () => { if (master) master.gain.setTargetAtTime(level(), context.currentTime, 0.02); });
const keep = (source, fader) => {
  const note = { source, fader };
  playing.push(note);
  source.onended = () => { playing = playing.filter(other => other !== note); };
};
// Instruments: the weights of whole multiples of a tone's frequency, so that none is ever out of tune; how long it takes
// to begin, the time in which it decays and down to what share, and how bright it begins and stays, in multiples too.
const plucked = n => Math.abs(Math.sin(n * Math.PI * 2 / 11)) / n ** 1.4, rising = n => 1 / n ** 1.6;
const INSTRUMENTS = {
  tune: { partials: 12, weight: plucked, begin: 0.006, decay: 0.5, rest: 0.12, bright: 14, later: 4 },
  chord: { partials: 6, weight: n => 0.3 ** (n - 1), begin: 0.012, decay: 0.7, rest: 0.2, bright: 8, later: 4 },
  bass: { partials: 8, weight: n => 0.42 ** (n - 1), begin: 0.012, decay: 0.6, rest: 0.25, bright: 9, later: 4 },
  drone: { partials: 10, weight: rising, begin: 0.35, decay: 1, rest: 1, bright: 8, later: 8 },
};
const waves = new Map();
const wave = part => {
  if (!waves.has(part)) {
    const { partials, weight } = INSTRUMENTS[part];
    const weights = Float32Array.from({ length: partials + 1 }, (_, n) => n && weight(n));
    waves.set(part, context.createPeriodicWave(new Float32Array(partials + 1), weights));
  }
  return waves.get(part);
};
const sound = (freq, at, length, force = 0.7, into = mix, part = 'tune') => {
  const source = context.createOscillator(), filter = context.createBiquadFilter();
  const shape = context.createGain(), fader = context.createGain();
  const { begin, decay, rest, bright, later } = INSTRUMENTS[part], end = at + Math.max(length, 4 * FADE_S);
  const top = Math.min(at + begin, end - 3 * FADE_S);
  source.setPeriodicWave(wave(part));
  source.frequency.value = freq;
  filter.type = 'lowpass';
  filter.Q.value = 0;
  filter.frequency.setValueAtTime(Math.min(12000, freq * bright * (0.5 + force / 1.4)), at);
  filter.frequency.setTargetAtTime(Math.min(12000, freq * later), top, decay / 3);
  shape.gain.setValueAtTime(0, at);
  shape.gain.linearRampToValueAtTime(force, top);
  shape.gain.setTargetAtTime(force * rest, top, decay);
  shape.gain.setTargetAtTime(0, end - 3 * FADE_S, FADE_S / 2);
  source.connect(filter).connect(shape).connect(fader).connect(into);
  source.start(at);
  source.stop(end);
  keep(source, fader);
  return end;
};
const stop = () => {
  timers.forEach(clearTimeout);
  timers = [];
  // A gain of its own ends a tone early: taking back the planned shape would let it leap.
  for (const { source, fader } of playing) {
    fader.gain.setTargetAtTime(0, context.currentTime, FADE_S / 2);
    source.stop(context.currentTime + 4 * FADE_S);
  }
  playing = [];
  light(null);
  if (pressed) { pressed.setAttribute('aria-pressed', 'false'); pressed.textContent = pressed.dataset.label; }
  pressed = null;
};
const hold = (button, seconds) => {
  pressed = button;
  button.dataset.label = button.textContent;
  button.textContent = data.words.stop;
  button.setAttribute('aria-pressed', 'true');
  timers.push(setTimeout(stop, 1000 * seconds));
};

// Tones: the ladder and the keyboard light the same step; keys beyond the octave light the rung an octave nearer.
const readout = document.getElementById('readout');
// A tone that is transposed has its own key, and the rung that is written.
const light = (step, rung = step) => {
  for (const key of all('.sounding')) key.classList.remove('sounding');
  for (const ring of all('.at-note')) ring.remove();
  if (step === null) return;
  const n = data.divisions, around = ((rung % n) + n) % n, octave = ((step % n) + n) % n;
  (document.getElementById(`key${step}`) ?? document.getElementById(`key${octave}`))?.classList.add('sounding');
  (document.getElementById(`rung${rung}`) ?? document.getElementById(`rung${around}`))?.classList.add('sounding');
};
const tell = step => {
  readout.dataset.from = `tuning:${step}`;
  readout.textContent = data.tones[step][1];
};
for (const button of all('[data-step]')) {
  button.addEventListener('click', () => {
    const step = Number(button.dataset.step);
    start();
    stop();
    sound(data.tones[step][0], context.currentTime, TONE_S);
    light(step);
    tell(step);
    timers.push(setTimeout(() => light(null), 1000 * TONE_S));
  });
}
const run = document.getElementById('run');
run.addEventListener('click', () => {
  const was = pressed;
  start();
  stop();
  if (was === run) return;
  const now = context.currentTime;
  data.run.forEach((step, index) => {
    sound(data.tones[step][0], now + index * STEP_S, STEP_S + 0.1);
    timers.push(setTimeout(() => light(step), 1000 * index * STEP_S));
  });
  hold(run, data.run.length * STEP_S + 0.2);
});

// One stop of the tab key for each row of tones; arrows walk inside it.
for (const row of all('[data-walk]')) {
  const buttons = all('button', row);
  const go = index => {
    const next = (index + buttons.length) % buttons.length;
    buttons.forEach((button, k) => { button.tabIndex = k === next ? 0 : -1; });
    buttons[next].focus();
  };
  row.addEventListener('keydown', event => {
    const at = buttons.indexOf(event.target);
    const moves = { ArrowRight: at + 1, ArrowUp: at + 1, ArrowLeft: at - 1, ArrowDown: at - 1, Home: 0, End: -1 };
    if (at < 0 || !(event.key in moves) || event.altKey || event.ctrlKey || event.metaKey) return;
    event.preventDefault();
    go(moves[event.key]);
  });
  row.addEventListener('focusin', event => {
    buttons.forEach(button => { button.tabIndex = button === event.target ? 0 : -1; });
  });
}

// Film: times lead into it, and the sentence that is being said is marked.
if (film) {
  for (const link of all('.seek')) {
    link.addEventListener('click', event => {
      if (event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      if (context) stop();
      film.currentTime = Number(link.dataset.at);
      film.play().catch(() => {});
    });
  }
  film.addEventListener('play', () => { if (context) stop(); });
  const lines = all('.line'), chapters = all('.chapters a');
  const box = document.getElementById('transcript');
  const calm = matchMedia('(prefers-reduced-motion: reduce)');
  const mark = (items, chosen) => items.forEach(item => {
    if (item === chosen) item.setAttribute('aria-current', 'true');
    else item.removeAttribute('aria-current');
  });
  let last = null;
  film.addEventListener('timeupdate', () => {
    const now = film.currentTime + 0.05;
    const line = lines.findLast(item => Number(item.dataset.at) <= now) || null;
    if (line === last) return;
    last = line;
    mark(lines, line);
    mark(chapters, chapters.findLast(item => Number(item.dataset.at) <= now) || null);
    // Only the transcript's own box scrolls, and not while the reader is in it.
    if (line && box.scrollHeight > box.clientHeight + 1 && !box.matches(':hover, :focus-within')) {
      const top = line.offsetTop - box.offsetTop - box.clientHeight / 3;
      box.scrollTo({ top, behavior: calm.matches ? 'auto' : 'smooth' });
    }
  });
}

// Quiz: the reason comes at once; the first choice of each question counts.
const score = document.getElementById('score');
const tried = new Map();
for (const question of all('.question')) {
  const choices = all('.choice', question), reason = question.querySelector('.reason');
  const reasons = all('.answers li', question);
  choices.forEach((choice, index) => choice.addEventListener('click', () => {
    const isRight = 'right' in choice.dataset;
    if (!tried.has(question)) tried.set(question, isRight);
    choice.classList.add(isRight ? 'yes' : 'no');
    const why = reasons[index].lastElementChild;
    reason.hidden = false;
    reason.dataset.from = why.dataset.from;
    reason.textContent = `${data.words[isRight ? 'right' : 'not-right']} ${why.textContent}`;
    score.textContent = data.scores[[...tried.values()].filter(Boolean).length];
  }));
}
for (const button of all('.hear')) {
  button.addEventListener('click', () => {
    const was = pressed;
    start();
    stop();
    if (was === button) return;
    const notes = data.sounds[button.dataset.sound];
    const now = context.currentTime;
    const ends = notes.map(([at, length, freq, force]) => sound(freq, now + at, length, force));
    hold(button, Math.max(0.1, ...ends.map(end => end - now)));
  });
}
