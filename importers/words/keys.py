"""The keys of preamble lines, in English, German, French, Spanish and Italian, in the form `plain` returns."""

from __future__ import annotations

from importers.words.channels import CHANNEL_WORDS, TABLE_WORDS
from importers.words.spelling import word_set

#: temperature of the shock or its oil
TEMPERATURE = word_set(
    "body temp, body temperature, damper temp, damper temperature, dampfertemperatur, oeltemperatur, oil temp, "
    "oil temperature, oleotemperatur, oltemperatur, shock temp, shock temperature, start temp, start temperature, "
    "starttemperatur, t oil, temp, temp huile, temp start, temperatur, temperatura, temperatura aceite, "
    "temperatura del aceite, temperatura dell olio, temperatura inicial, temperatura iniziale, temperatura olio, "
    "temperature, temperature amortisseur, temperature d huile, temperature de l huile, temperature huile, "
    "temperature initiale, temperature start, test temp, test temperature, temp at start,"
    " temperature at start, temperature before test, temp before test, damper temperature before test,"
    " shock temperature before test, oltemp, oeltemp, ol temp, pruftemperatur, prueftemperatur, pruflingstemperatur,"
    " dampfertemp, daempfertemperatur, temperatura de ensayo, temperatura prova, temp prova, temperature essai,"
    " temperature d essai, temp essai, testtemperatuur, temperatuur, temp olie, olietemp, testtemperatur, lampotila,"
    " lämpötila, teplota, temperatura proby, temperatura badania, sıcaklık, sicaklik, yag sicakligi, yağ sıcaklığı,"
    " hőmérséklet, температура, 温度, 油温, 试验温度, 온도, 오일온도, temperatura do teste, temperatura do amortecedor,"
    " shaft temp, shaft temperature, rod temp, rod temperature, surface temp, surface temperature, housing temp,"
    " housing"
    " temperature, canister temp, gehausetemperatur, oberflachentemperatur, stangentemperatur, temperature corps,"
    " temperatura cuerpo, temperatura amortiguador, temperatura corpo, temperatura stelo, dempertemperatuur,"
    " dempertemperatur, dempartemperatur, dampertemperatur, teplota tlumice, temperatura amortyzatora,"
    " iskarin lampotila,"
    " vaimentimen lampotila, температура амортизатора, ダンパー温度, 本体温度, 减振器温度, 댐퍼 온도"
)
#: what is as warm as the shock: a temperature where its value has a unit of one, else its kind or amount
OIL = CHANNEL_WORDS["temperature"] | word_set(
    "oil, ol, oel, huile, aceite, oleo, olie, olja, olje, olaj, olej, yag, масло, 油, オイル, 오일, 油温, オイル温度,"
    " 유온, 温度, t,"
    " teplota oleje, temperatura oleju, oljetemperatur, olietemperatur, olietemperatuur, oljyn lampotila,"
    " temperatura do oleo, yag sicakligi, температура масла"
)
#: gas pressure
GAS = word_set(
    "bladder pressure, ifp pressure, ifp, 봉입압, n2 charge, nitrogen charge, "
    "gasfulldruck, gasfuelldruck, gasvordruck, vordruck, "
    "azote, azoto, charge, charge pressure, druck, fulldruck, gas, gas charge, gas press, gas "
    "pressure, gasdruck, n2, n2 druck, n2 pressure, nitrogen, nitrogen pressure, nitrogeno, pgas, presion, "
    "presion de gas, presion del gas, presion gas, presion nitrogeno, pression, pression azote, pression d azote, "
    "pression de gaz, pression du gaz, pression gaz, pressione, pressione azoto, pressione del gas, pressione "
    "gas, pressure, reservoir pressure, stickstoff, stickstoffdruck, gasdruk, pressao do gas, pressao gas,"
    " canister, canister pressure, reservoir, res pressure, gas bottle, n2 press, nitrogen press, gas charge pressure,"
    " precharge, pre charge, pre-charge, pressurization, gaz, gaz basıncı, gaz basinci, azot, azot basıncı, basınç,"
    " ciśnienie, ciśnienie azotu, azot ciśnienie, tlak, tlak dusíku, dusík, paine, typpi, typpipaine, gastryck, tryck,"
    " stikstof, stikstofdruk, pressao, pressao de gas, pressao nitrogenio, nitrogenio, pressao n2, carica gas, carga,"
    " carga de gas, charge gaz, charge azote, gasfullung, gasfüllung, давление, азот, давление азота, 充气压力, 气压,"
    " 气体压力, 氮气压力, 氮气, 充氣壓力, 窒素, 窒素圧, 封入圧, 封入ガス圧, 가스압력, 질소압, 질소, 가스,"
    " gastrykk, gastryk, ciśnienie gazu, kaasunpaine, tlak plynu, gáznyomás, давление газа, ガス圧, ガス圧力, 가스압,"
    " gasstrykk, gasstryk, πίεση αερίου, πίεση αζώτου, αέριο, άζωτο, 氣壓, 氣體壓力, 氮氣壓力, 氮氣,"
    " kvave, kvavgas, kvavgastryck, kvavetryck, kvavgastrykk, nitrogentrykk, nitrogentryk, nitrogengas, kvaelstof,"
    " kvælstof,"
    " kvælstoftryk, kvaelstoftryk, n2 tryck, n2 trykk, n2 tryk, n2 druk, n2 pression, n2 presion, n2 pressione,"
    " n2 tlak,"
    " n2 cisnienie, stikstofgas, stickstofffulldruck, gasladdning, gasladning, gaslading, gas typpi, typenpaine,"
    " nitrogennyomas, nitrogen nyomas, azot nyomas, azot basinci"
)
#: day of the run
DATE = word_set(
    "created, log date, logged, session date, recording date, measurement date, "
    "data, data e ora, data prova, date, date and time, date d essai, date essai, date et heure, date of "
    "test, date test, date time, date/time, datum, datum uhrzeit, datum/uhrzeit, fecha, fecha de ensayo, fecha "
    "ensayo, fecha y hora, gemessen am, measured, messdatum, prufdatum, recorded, run date, start, test date, "
    "tested, tested on, time stamp, timestamp, versuchsdatum, päivä, päivämäärä, pvm, kuupäev, datums, dátum, дата, "
    "tarih, dato, dag, data badania, data testu, päiväys, date tested, session,"
    " testdatum, 日期, 日付, 날짜, ημερομηνία, day, day of test"
)
#: those of them that English shares: what follows may put the month first
_IN_ENGLISH = word_set(
    "created, log date, logged, session date, recording date, measurement date, date, date and time, date of test,"
    " date test, date time, date/time, measured, recorded, run date, start, test date, tested, tested on, time stamp,"
    " timestamp, date tested, session, day, day of test"
)
#: words that end or begin a key of a day in languages that set no blanks, or run words together
_FIRST_EASTERN = 0x1100  #: of the characters of Korean, Chinese and Japanese, which put the year first
_OF_DATE = ("日期", "日付", "日時", "日", "날짜", "일자", "datum", "date")


#: small words within such a key: "date de l essai", "date of the test"
_SMALL = word_set("a, al, d, da, de, del, della, dell, der, des, di, do, du, l, la, le, of, the, van")


def is_date(key: str) -> bool:
    """Whether a key, in the form `plain` returns, names the day of a run."""
    return (
        key in DATE
        or " ".join(word for word in key.split() if word not in _SMALL) in DATE
        or (len(key.split()) == 1 and key.endswith(_OF_DATE) and not key.startswith(("up", "cali", "kali")))
    )


def is_of(key: str, words: frozenset[str]) -> bool:
    """Whether a key, in the form `plain` returns, is one of some words, small words within it aside."""
    return key in words or " ".join(word for word in key.split() if word not in _SMALL) in words


def puts_day_first(key: str) -> bool:
    """Whether a key of a day is of a language in which the day stands before the month.

    >>> puts_day_first("datum"), puts_day_first("date"), puts_day_first("日付")
    (True, False, False)
    """
    return is_date(key) and key not in _IN_ENGLISH and ord(key[0]) < _FIRST_EASTERN


#: stroke of the run
STROKE = word_set(
    "carrera, carrera total, corsa, corsa totale, course, course totale, gesamthub, hub, prufhub, crank stroke, dyno "
    "stroke, rig stroke, machine stroke, stroke, stroke length, test stroke, total stroke,"
    " full stroke, curso, skok, slaglängd, slaglengde,"
    " slaglængde, iskunpituus, slag, zdvih, ストローク, 스트로크, ход, хід, 行程, kurs, strok, löket"
)
#: strokes from end to end that a shock's own may be as well as a rig's
STROKE_OF_EITHER = word_set("carrera total, corsa totale, course totale, gesamthub, total stroke, full stroke")
#: words that make a stroke the rig's own
OF_RIG = word_set("crank, dyno, rig, machine, test, prufhub, throw, kurbelradius")
#: half the stroke of the run
AMPLITUDE = word_set(
    "crank throw, throw, half stroke, amplitude p-p, amplitude pp, double amplitude, peak to peak amplitude,"
    " amplitude, amplitud, ampiezza, amplitude de mouvement, motion amplitude, stroke amplitude, test amplitude, "
    "crank radius, kurbelradius, wegamplitude, hubamplitude, amplituda, amplitudo, amplitude du deplacement"
)
#: diameter of the rod
ROD = word_set(
    "rod, rod dia, rod diameter, shaft, shaft dia, shaft diameter, piston rod, piston rod diameter, kolbenstange,"
    " kolbenstangendurchmesser, stangendurchmesser, tige, diametre tige, diametre de tige, stelo, diametro stelo,"
    " vastago, diametro vastago, ロッド径, stangdiameter, tłoczysko, średnica tłoczyska, männänvarsi,"
    " kolvstang, kolvstangsdiameter, haste, diametro da haste, pistnice, prumer pistnice, "
    "zuigerstang, zuigerstangdiameter, stempelstang,"
    " rod size, rod od, stange, stangen ø, kolbenstange ø, rod ø, shaft ø, shaft od, shaft size, mil, mil çapı,"
    " tige ø, ø tige, stelo ø, шток, диаметр штока, 活塞杆直径, 杆径, 로드 직경, ロッド"
)
#: sample rate
RATE = word_set(
    "abtastfrequenz, abtastrate, acquisition rate, aufzeichnungsrate, cadence, campionamento, daq rate, data "
    "rate, echantillonnage, frecuencia de muestreo, frecuencia muestreo, frequence acquisition, frequence d "
    "acquisition, frequence d echantillonnage, frequence echantillonnage, frequenza campionamento, frequenza di "
    "campionamento, fs, log rate, logging rate, messfrequenz, messrate, muestreo, rate, rate hz, recording rate, "
    "sample frequency, sample rate, sample rate hz, samplerate, samples per second, samples/s, sampling, sampling "
    "freq, sampling frequency, sampling rate, scan rate, scanrate, tasa de muestreo,"
    " örnekleme, örnekleme hızı, örnekleme frekansı, bemonstering, bemonsteringsfrequentie, meetfrequentie,"
    " samplefrequentie, amostragem, taxa de amostragem, frequencia de amostragem, taxa amostragem, próbkowanie,"
    " częstotliwość próbkowania, vzorkování, vzorkovací frekvence, samplingsfrekvens, samplingsrate,"
    " mätfrekvens, näytteenottotaajuus, näytetaajuus, mintavétel, частота дискретизации, частота опроса, 采样率,"
    " 采样频率, サンプリング周波数, サンプリング, 샘플링, 샘플링 주파수, abtastung, tastfrequenz"
)
#: time between samples
INTERVAL = word_set(
    "abtastintervall, abtastzeit, delta t, dt, interval, intervall, intervallo di campionamento, intervalo de "
    "muestreo, messintervall, pas de temps, paso de tiempo, passo temporale, periode d echantillonnage, periodo "
    "de muestreo, sample interval, sample period, sample time, sampling interval, sampling period, sampling time, "
    "time interval, time step, timestep"
)
#: units of the columns
UNITS = word_set(
    "einheit, einheiten, unidad, unidades, unit, unit system, unita, unita di misura, unite, unites, units, units used,"
    " unidade, masseinheit, masseinheiten, jednotka, jednotky, jednostka, jednostki, birim, birimler, enhet, enheter, "
    "enhed, enheder, eenheid, eenheden, yksikkö, yksiköt, mértékegység, mértékegységek, egység, egységek, unitate, "
    "unități, единица, единицы, единицы измерения, μονάδα, μονάδες, 単位, 单位, 單位, 단위"
)
#: words of file names that name no pack
STOP = word_set(
    "after, and, baseline, before, bench, block, blocks, click, clicks, cold, copy, csv, cvp, damper, data, "
    "daten, day, demo, dyno, english, ensayo, essai, euro, example, export, file, final, fl, fr, french, from, "
    "front, german, hot, in, inch, italian, kraft, lbf, left, log, long, messung, metric, mm, new, no, old, one, "
    "out, peak, peaks, prova, pvp, ramp, raw, rear, rebuild, rebuilt, record, report, result, results, rig, "
    "right, rl, rr, run, sample, session, setting, settings, sheet, shock, sine, spanish, staircase, sweep, "
    "table, test, the, trace, two, txt, unit, unknown, unlabelled, us, utf, v1, v2, version, versuch, weg, wide, "
    "with, jan, feb, mar, apr, may, jun, jul, aug, sep, sept, oct, nov, dec, janv, fev, avr, mai, juin, juil, aout, "
    "dez, okt, mrz, ene, abr, ago, dic, gen, mag, giu, lug, set, ott"
)
#: a single adjuster without a direction
ONE_KNOB = word_set(
    "adjuster, knob, clicker, clicks, click, klicks, clics, adjustment, versteller, scatti,"
    " klik, kliks, klikken, klikk, clic, cliques, clique, klikkia, naksua, klicket, knopp, knobs, regolatore"
)
#: all keys that state a fact
KNOWN = (
    TEMPERATURE
    | OIL
    | GAS
    | DATE
    | STROKE
    | AMPLITUDE
    | ROD
    | RATE
    | INTERVAL
    | TABLE_WORDS["shock"]
    | TABLE_WORDS["pack"]
)
