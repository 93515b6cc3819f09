'use strict';
// The page is a card without this script. With it each set is tapped when it is done, figures are changed by keys, and what
// was done is kept in the browser's own store and copied as a log in the notation. Nothing is fetched and nothing is sent.
(() => {
  const key = 'bellsheet ' + document.body.dataset.page;
  const kept = (() => { try { return JSON.parse(localStorage.getItem(key)) || {}; } catch { return {}; } })();
  const keep = () => { try { localStorage.setItem(key, JSON.stringify(kept)); } catch { /* a page that may keep nothing */ } };
  // Words of the page's language; what is not there stays English. The log is in the notation, whatever the language.
  const words = JSON.parse(document.body.dataset.words || '{}');
  const say = (text, ...parts) => (words[text] || text).replace(/%[sd]/g, () => parts.shift());
  const figure = (number) => String(number).replace('.', words['.'] || '.');
  const make = (tag, words, name) => Object.assign(document.createElement(tag), { textContent: words, className: name || '' });
  const button = (words, label, act, name) => {
    const one = make('button', words, name);
    one.type = 'button';
    if (label) one.setAttribute('aria-label', label);
    one.addEventListener('click', act);
    return one;
  };
  // Thousandths, so that 0.1 + 0.2 is 0.3.
  const sum = (a, b) => Math.round((Number(a) + b) * 1000) / 1000;

  // A set in the notation, "5 each side @ 70 kg", and how its two figures are found.
  const amount = /^(hold )?(\d+(?:\.\d+)?)/, load = /(@ )(\d+(?:\.\d+)?)( (?:kg|lb))/;
  const steps = {
    amount: (words, by) => words.replace(amount, (all, hold, figure) => sum(figure, by * (hold ? 5 : 1)) > 0
      ? (hold || '') + sum(figure, by * (hold ? 5 : 1)) : all),
    load: (words, by) => words.replace(load, (all, at, figure, unit) => sum(figure, by) >= 0 ? at + sum(figure, by) + unit : all)
  };

  const set = (state, item, planned, place) => {
    const row = make('li', ''), id = item.dataset.ref + ' ' + place, own = () => state.sets[id] || planned;
    const tap = button('', '', () => { state.done[id] = !state.done[id]; keep(); show(); }, 'set');
    const show = () => {
      tap.textContent = own() + (own() === planned ? '' : say(' (planned: %s)', planned));
      tap.setAttribute('aria-pressed', String(!!state.done[id]));
      tap.setAttribute('aria-label', say('%s, set %d: %s', item.dataset.name, place, own()));
    };
    const change = (what, by) => () => {
      state.sets[id] = steps[what](own(), by);
      state.done[id] = true;
      keep();
      show();
    };
    row.append(tap);
    if (amount.test(planned))
      row.append(button('−', say('less in set %d', place), change('amount', -1), 'step'), button('+', say('more in set %d', place), change('amount', 1), 'step'));
    if (load.test(planned)) {
      const by = Number(item.dataset.step) || 2.5;
      const lighter = '−' + figure(by), heavier = '+' + figure(by);
      row.append(button(lighter, say('lighter in set %d, %s', place, lighter), change('load', -by), 'step'), button(heavier, say('heavier in set %d, %s', place, heavier), change('load', by), 'step'));
    }
    show();
    return row;
  };

  const counter = (lead, told, state, name, planned, by, least, most) => {
    const row = make('div', '', 'row'), at = make('span', '');
    const own = () => state[name] === undefined ? planned : state[name];
    const show = () => { at.textContent = own() === undefined ? say(lead) + ': ' + say('not said') : say(told, figure(own())); };
    const change = (sign) => () => {
      state[name] = Math.min(most, Math.max(least, sum(own() === undefined ? least : own(), sign * by)));
      keep();
      show();
    };
    row.append(at, button('−', say('less: %s', say(lead)), change(-1), 'step'), button('+', say('more: %s', say(lead)), change(1), 'step'));
    show();
    return row;
  };

  // One line of a log: no line end, nothing that starts a comment.
  const plain = (words) => words.replace(/\s+/g, ' ').replace(/#/g, '').trim();

  const log = (section, state) => {
    const lines = [section.dataset.log], items = [...section.querySelectorAll('[data-ref]')];
    if (state.missed)
      return lines.concat('    missed because ' + (plain(state.reason || '') || 'not said')).join('\n') + '\n';
    const sets = items.map((item) => JSON.parse(item.dataset.sets).map((planned, i) => {
      const id = item.dataset.ref + ' ' + (i + 1);
      return { done: !!state.done[id], words: state.sets[id] || planned, same: (state.sets[id] || planned) === planned };
    }));
    const all = sets.flat();
    if (all.length > 0 && all.every((one) => one.done && one.same))
      lines.push('    as planned');
    const took = [state.minutes === undefined ? '' : state.minutes + ' min', state.effort === undefined ? '' : 'RPE ' + state.effort];
    if (took.join(''))
      lines.push('    took      ' + took.filter(Boolean).join(' '));
    if (lines[1] !== '    as planned')
      items.forEach((item, i) => {
        const done = sets[i].filter((one) => one.done).map((one) => one.words);
        if (done.length)
          lines.push('    ' + item.dataset.ref + ' : ' + done.join('; '));
      });
    if (lines[1] !== '    as planned' && all.some((one) => one.done))
      items.forEach((item, i) => {
        if (sets[i].length && !sets[i].some((one) => one.done))
          lines.push('    skipped   ' + item.dataset.ref + ' because it was not done');
      });
    if (plain(state.note || ''))
      lines.push('    note      ' + plain(state.note));
    return lines.length > 1 ? lines.join('\n') + '\n' : '';
  };

  const field = (lead, state, name) => {
    const row = make('label', lead), input = make('input', '');
    input.value = state[name] || '';
    input.addEventListener('input', () => { state[name] = input.value; keep(); });
    row.append(input);
    return row;
  };

  for (const section of document.querySelectorAll('[data-log]')) {
    const state = kept[section.dataset.log] ||= { sets: {}, done: {} };
    for (const item of section.querySelectorAll('[data-ref]')) {
      const list = make('ul', '');
      JSON.parse(item.dataset.sets).forEach((planned, i) => list.append(set(state, item, planned, i + 1)));
      item.append(list);
    }
    const end = make('div', '', 'end'), out = make('textarea', ''), told = make('p', '');
    const planned = (name) => section.dataset[name] === undefined ? undefined : Number(section.dataset[name]);
    const missed = button('', '', () => { state.missed = !state.missed; keep(); show(); });
    const show = () => {
      missed.textContent = state.missed ? say('Not done') : say('Not done?');
      missed.setAttribute('aria-pressed', String(!!state.missed));
      why.hidden = !state.missed;
    };
    const why = field(say('Why (nothing about your health)'), state, 'reason');
    out.readOnly = true;
    out.hidden = true;
    out.setAttribute('aria-label', say('the log'));
    told.setAttribute('role', 'status');
    const write = () => {
      out.value = log(section, state);
      out.hidden = false;
      told.textContent = out.value ? '' : say('Nothing is tapped yet.');
      return out.value;
    };
    const copy = button(say('Copy the log'), '', async () => {
      if (!write()) return;
      try {
        await navigator.clipboard.writeText(out.value);
        told.textContent = say('Copied.');
      } catch {
        out.select();
        told.textContent = document.execCommand('copy') ? say('Copied.') : say('Press and hold the text to copy it.');
      }
    });
    end.append(counter('Minutes', 'Minutes: %s min', state, 'minutes', planned('minutes'), 1, 0, 600),
      counter('How hard it was, RPE', 'How hard it was, RPE: %s', state, 'effort', planned('effort'), 0.5, 0, 10),
      field(say('Note (nothing about your health: tell the coach)'), state, 'note'), missed, why, copy);
    if (navigator.share)
      end.append(button(say('Share the log'), '', () => { if (write()) navigator.share({ text: out.value }).catch(() => 0); }));
    end.append(told, out);
    section.append(end);
    show();
  }

  // Today comes first.
  const now = new Date(), two = (n) => String(n).padStart(2, '0');
  const today = document.querySelector('[data-day="' + now.getFullYear() + '-' + two(now.getMonth() + 1) + '-' + two(now.getDate()) + '"]');
  if (today) {
    today.classList.add('today');
    document.querySelector('main').prepend(today);
  }
  document.documentElement.classList.add('scripted');
})();
