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
  const loudness = bar.querySelector('input');
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

  // A Standard MIDI File of format 0 as the report writes it: no running status.
  function melody(link) {
    const bytes = Uint8Array.from(atob(link.href.split(',')[1]), (c) => c.charCodeAt(0));
    const ticks = (bytes[12] << 8) | bytes[13];
    const started = new Map();
    const notes = [];
    let quarter = 0.5;
    let at = 22;
    let tick = 0;
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
      tick += number();
      const kind = bytes[at++];
      if (kind === 0xff) {
        const type = bytes[at++];
        const size = number();
        if (type === 0x51) {
          quarter = ((bytes[at] << 16) | (bytes[at + 1] << 8) | bytes[at + 2]) / 1e6;
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
          notes.push({pitch, from: started.get(pitch) / ticks, to: tick / ticks});
        }
      }
    }
    notes.sort((a, b) => a.from - b.from);
    return {notes, quarter};
  }

  // The first half of each beat is stretched to two thirds of it.
  function swung(moment) {
    const beat = Math.floor(moment);
    const rest = moment - beat;
    return beat + (rest < 0.5 ? (rest * 4) / 3 : 2 / 3 + ((rest - 0.5) * 2) / 3);
  }

  function gain() {
    const part = loudness.value / 100;
    return LOUDEST * part * part;
  }

  function sound(note, from, to) {
    const oscillator = context.createOscillator();
    const envelope = context.createGain();
    const end = Math.max(to - 0.01, from + 2 * ATTACK);
    oscillator.type = 'triangle';
    oscillator.frequency.value = 440 * 2 ** ((note.pitch - 69) / 12);
    envelope.gain.setValueAtTime(0, from);
    envelope.gain.linearRampToValueAtTime(1, from + ATTACK);
    envelope.gain.linearRampToValueAtTime(0.7, end);
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
    while (playing.next < playing.notes.length) {
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
    const heard = melody(link);
    if (!heard.notes.length) {
      return;
    }
    if (!context) {
      context = new AudioContext();
      master = context.createGain();
      master.connect(context.destination);
    }
    context.resume();
    master.gain.value = gain();
    const swings = eighths.value === 'swung' && link.dataset.swings === 'true';
    const place = swings ? swung : (moment) => moment;
    const first = Math.floor(heard.notes[0].from);
    const out = context.createGain();
    out.connect(master);
    playing = {
      button,
      out,
      notes: heard.notes.map((n) => ({
        pitch: n.pitch,
        from: place(n.from) - first,
        to: place(n.to) - first,
      })),
      quarter: (heard.quarter * 100) / speed.value,
      start: context.currentTime + 0.1,
      next: 0,
    };
    playing.end = Math.max(...playing.notes.map((n) => n.to));
    bar.hidden = false;
    stopButton.disabled = false;
    button.setAttribute('aria-pressed', 'true');
    status.textContent = bar.dataset.playing
      .replace('{2}', String(Math.round(60 / playing.quarter)))
      .replace('{1}', swings ? bar.dataset.swung : bar.dataset.straight)
      .replace('{0}', () => button.dataset.name);
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
  loudness.addEventListener('input', () => {
    if (master) {
      master.gain.setTargetAtTime(gain(), context.currentTime, 0.02);
    }
  });
  eighths.addEventListener('change', again);
  speed.addEventListener('change', again);
})();
