// Plays the phrases of a page of a Phrase Census report. Each button stands before a link that holds
// a MIDI file; the script reads that file and sounds it with plain oscillators. It fetches nothing,
// and without it the buttons stay hidden and the links work.
(() => {
  'use strict';

  const bar = document.querySelector('.player');
  const buttons = document.querySelectorAll('.listen button');
  if (!bar || !buttons.length || !window.AudioContext || !window.atob) {
    return;
  }
  const stopButton = bar.querySelector('.stop');
  const loudness = bar.querySelector('.loudness');
  const under = bar.querySelector('.under');
  const click = bar.querySelector('.click');
  const loop = bar.querySelector('.loop');
  const eighths = bar.querySelector('.eighths');
  const speed = bar.querySelector('.speed');
  const status = bar.querySelector('[role=status]');

  const AHEAD = 1.5; // seconds that are scheduled at once: hidden pages wake up once a second
  const ATTACK = 0.012;
  const RELEASE = 0.05;
  const LOUDEST = 0.4;

  let context = null;
  let master = null;
  let timer = 0;
  let playing = null;

  // A Standard MIDI File as the report writes it, no running status: the line on channel 0, chords
  // on 1, bass on 2.
  function read(link) {
    const bytes = Uint8Array.from(atob(link.href.split(',')[1]), (c) => c.charCodeAt(0));
    const ticks = (bytes[12] << 8) | bytes[13];
    const found = {parts: [[], [], []], quarter: 0.5, bar: 4, click: 1};
    let at = 14;
    const number = () => {
      let value = 0;
      let byte;
      do {
        byte = bytes[at++];
        value = (value << 7) | (byte & 127);
      } while (byte & 128);
      return value;
    };
    while (at < bytes.length) {
      const started = new Map();
      const end = at + 8 + ((bytes[at + 5] << 16) | (bytes[at + 6] << 8) | bytes[at + 7]);
      let tick = 0;
      at += 8;
      while (at < end) {
        tick += number();
        const kind = bytes[at++];
        if (kind === 0xff) {
          const type = bytes[at++];
          const size = number();
          if (type === 0x51) {
            found.quarter = ((bytes[at] << 16) | (bytes[at + 1] << 8) | bytes[at + 2]) / 1e6;
          } else if (type === 0x58) {
            found.click = 4 / 2 ** bytes[at + 1];
            found.bar = bytes[at] * found.click;
          }
          at += size;
        } else if (kind >> 4 === 0xc) {
          at += 1;
        } else {
          const pitch = bytes[at];
          at += 2;
          if (kind >> 4 === 9) {
            started.set(pitch, tick);
          } else {
            const from = started.get(pitch) / ticks;
            found.parts[kind & 15].push({pitch, from, to: tick / ticks});
          }
        }
      }
    }
    return found;
  }

  // The first half of each beat is stretched to a share of it.
  const SHARES = {straight: 1 / 2, light: 4 / 7, swung: 2 / 3, hard: 3 / 4};

  function swung(moment, share) {
    const beat = Math.floor(moment);
    const rest = moment - beat;
    return beat + (rest < 0.5 ? rest * 2 * share : share + (rest - 0.5) * 2 * (1 - share));
  }

  function gain() {
    const part = loudness.value / 100;
    return LOUDEST * part * part;
  }

  function sound(note, from, to) {
    const oscillator = context.createOscillator();
    const envelope = context.createGain();
    const end = Math.max(to - 0.01, from + 2 * ATTACK);
    const level = note.level;
    oscillator.type = note.type;
    oscillator.frequency.value = 440 * 2 ** ((note.pitch - 69) / 12);
    envelope.gain.setValueAtTime(0, from);
    envelope.gain.linearRampToValueAtTime(level, from + ATTACK);
    envelope.gain.linearRampToValueAtTime(0.7 * level, end);
    envelope.gain.linearRampToValueAtTime(0, end + RELEASE);
    oscillator.connect(envelope).connect(playing.out);
    oscillator.start(from);
    oscillator.stop(end + RELEASE);
  }

  function stop(words) {
    clearInterval(timer);
    if (playing) {
      playing.button.setAttribute('aria-pressed', 'false');
      playing.out.disconnect();
      playing = null;
    }
    stopButton.disabled = true;
    status.textContent = words;
  }

  function schedule() {
    const now = context.currentTime;
    while (true) {
      if (playing.next === playing.notes.length) {
        if (!playing.round) {
          break;
        }
        // Whole bars, and no second count-in.
        playing.start += playing.round * playing.quarter;
        playing.next = playing.again;
      }
      const note = playing.notes[playing.next];
      const from = playing.start + note.from * playing.quarter;
      if (from > now + AHEAD) {
        return;
      }
      sound(note, Math.max(from, now), playing.start + note.to * playing.quarter);
      playing.next += 1;
    }
    if (now > playing.start + playing.end * playing.quarter + RELEASE) {
      stop(bar.dataset.ended);
    }
  }

  function play(button) {
    stop('');
    const link = button.parentElement.querySelector('a');
    const heard = read(link);
    if (!heard.parts[0].length) {
      return;
    }
    if (!context) {
      context = new AudioContext();
      master = context.createGain();
      master.connect(context.destination);
    }
    context.resume();
    master.gain.value = gain();
    const feel = eighths.selectedOptions[0];
    const share = link.dataset.swings === 'true' ? SHARES[feel.value] : 0.5;
    const straight = eighths.querySelector('[value=straight]');
    const out = context.createGain();
    out.connect(master);
    const beat = Number(link.dataset.beat);
    const first = Math.floor(Math.min(...heard.parts[0].map((n) => n.from)));
    const last = Math.max(...heard.parts[0].map((n) => n.to));
    const played = (part, type, level) =>
      heard.parts[part].map((n) => ({
        pitch: n.pitch,
        from: swung(n.from, share) - first,
        to: swung(n.to, share) - first,
        type,
        level,
      }));
    const notes = played(0, 'triangle', 1);
    if (under.value === 'chords') {
      notes.push(...played(1, 'sine', 0.35), ...played(2, 'triangle', 0.5));
    } else if (under.value === 'home' && link.dataset.home) {
      const home = 36 + Number(link.dataset.home);
      const tone = {from: 0, to: last - first, type: 'triangle', level: 0.3};
      notes.push({...tone, pitch: home}, {...tone, pitch: home + 12});
    }
    // The bar line lies before the phrase by the beats that it begins after it.
    const line = -beat;
    const round = Math.ceil((last - first - line) / heard.bar - 1e-9) * heard.bar;
    let lead = 0;
    if (click.checked) {
      const beats = Math.round(heard.bar / heard.click);
      for (let i = -2 * beats; line + i * heard.click < line + round - 1e-9; i += 1) {
        const from = line + i * heard.click;
        const pitch = i % beats === 0 ? 96 : 91;
        notes.push({pitch, from, to: from + 0.05, type: 'square', level: 0.15});
      }
      lead = 2 * heard.bar - line;
    }
    notes.sort((a, b) => a.from - b.from);
    const quarter = (heard.quarter * 100) / speed.value;
    playing = {
      button,
      out,
      notes,
      quarter,
      start: context.currentTime + 0.1 + lead * quarter,
      next: 0,
      round: loop.checked ? round : 0,
      again: notes.findIndex((n) => n.from >= line - 1e-9),
      end: Math.max(...notes.map((n) => n.to)),
    };
    bar.hidden = false;
    stopButton.disabled = false;
    button.setAttribute('aria-pressed', 'true');
    status.textContent = bar.dataset.playing
      .replace('{2}', String(Math.round(60 / playing.quarter)))
      .replace('{1}', (share === 0.5 ? straight : feel).dataset.words)
      .replace('{0}', () => button.dataset.name);
    document.documentElement.style.setProperty('--player', `${bar.offsetHeight + 16}px`);
    schedule();
    timer = setInterval(schedule, 250);
  }

  function again() {
    if (playing) {
      play(playing.button);
    }
  }

  buttons.forEach((button) => {
    button.hidden = false;
    button.setAttribute('aria-pressed', 'false');
    button.addEventListener('click', () => {
      if (playing && playing.button === button) {
        stop(bar.dataset.stopped);
      } else {
        play(button);
      }
    });
  });
  stopButton.addEventListener('click', () => stop(bar.dataset.stopped));
  document.addEventListener('keydown', (event) => {
    if (event.key === 'Escape' && playing) {
      stop(bar.dataset.stopped);
    }
  });
  // What has the focus is never behind the player, however high it is.
  document.addEventListener('focusin', (event) => {
    const box = event.target.getBoundingClientRect();
    const own = bar.getBoundingClientRect();
    const over = box.bottom - own.top;
    if (!bar.hidden && !bar.contains(event.target) && over > 0 && box.top < own.bottom) {
      window.scrollBy({top: over + 8, behavior: 'instant'});
    }
  });
  loudness.addEventListener('input', () => {
    if (master) {
      master.gain.setTargetAtTime(gain(), context.currentTime, 0.02);
    }
  });
  [eighths, under, click, loop, speed].forEach((each) => each.addEventListener('change', again));
})();
