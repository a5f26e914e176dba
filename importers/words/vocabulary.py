"""The words that rigs and people write at columns and in preambles, in English, German, French, Spanish and Italian.

Words are in the form `plain` returns: lower case, no accents, no punctuation, single blanks.
"""

from __future__ import annotations

import re
import unicodedata

_PUNCTUATION = re.compile(r"[^\w%°µ/.+-]+|_")


def plain(text: str) -> str:
    """Return text in lower case without accents and punctuation, with single blanks.

    >>> plain("Dämpferkraft_(gefiltert)")
    'dampferkraft gefiltert'
    """
    if text.isascii():
        return " ".join(_PUNCTUATION.sub(" ", text.lower()).split())
    folded = unicodedata.normalize("NFKD", text.lower().replace("ß", "ss").replace("°", "\ue000"))
    bare = "".join(c for c in folded if not unicodedata.combining(c)).replace("\ue000", "°").replace("μ", "µ")
    return " ".join(_PUNCTUATION.sub(" ", bare).split())


def _set(text: str) -> frozenset[str]:
    return frozenset(word.strip() for word in text.split(",") if word.strip())


#: what a column holds, by word; a name's words are matched one by one and as a whole
CHANNEL_WORDS: dict[str, frozenset[str]] = {
    "force": _set(
        "force, load, loadcell, load cell, kraft, dampfkraft, dampferkraft, dampfungskraft, kraftaufnehmer, effort,"
        " fuerza, carga, forza, carico, lc, fz, f, frc, fd, fdamp, damperforce, shockforce, dampingforce, kmd, "
        "forces,"
        " krafte, kraftmessdose, fuerzas, forze, cella di carico, celda de carga, capteur de force"
    ),
    "velocity": _set(
        "velocity, speed, vel, v, geschwindigkeit, geschw, kolbengeschwindigkeit, dampfergeschwindigkeit, vitesse,"
        " velocidad, velocita, vs, vd, spd, shaftspeed, shaft speed, velocities, geschwindigk, vpiston, vshaft, "
        "vdamper,"
        " shaftvelocity, pistonvelocity, pistonspeed, shockvelocity, dampervelocity, xdot, vz, vitesses, speeds, "
        "rapidez"
    ),
    "displacement": _set(
        "displacement, disp, displ, position, pos, travel, stroke, weg, hub, kolbenweg, dampferweg, federweg,"
        " auslenkung, deplacement, course, desplazamiento, recorrido, carrera, posicion, spostamento, corsa, "
        "posizione,"
        " x, s, z, lvdt, shockpos, shocktravel, traveling, wegaufnehmer, einfederung, enfoncement, hubweg, dsp, "
        "shaftpos,"
        " actuator position, shocktravel, lageposition, verfahrweg"
    ),
    "time": _set(
        "time, t, zeit, temps, tiempo, tempo, timestamp, elapsed, laufzeit, messzeit, zeitstempel, elapsedtime, "
        "clock,"
        " sec, secs, seconds, sekunden, heure, ora, hora, uhrzeit, instant, zeitpunkt, duree, durata"
    ),
    "temperature": _set(
        "temperature, temp, temperatur, temperatura, oltemperatur, oiltemp, oeltemperatur, bodytemp, tmp, ttemp, "
        "toil,"
        " toel, gehausetemperatur, dampfertemperatur, tbody, thermocouple, thermoelement, oiltemperature, shocktemp,"
        " tdamper, olio"
    ),
    "pressure": _set("pressure, press, druck, pression, presion, pressione, gasdruck, gaspressure, pgas, p, prs"),
}  # fmt: skip
#: columns that state the run or the setting of a row
TABLE_WORDS: dict[str, frozenset[str]] = {
    "shock": _set(
        "shock, damper, serial, sn, s/n, dampfer, stossdampfer, amortisseur, amortiguador, ammortizzatore, shock id,"
        " unit, sample, specimen, shock no, serial number, seriennummer, muestra, pruefling, prufling, shock name,"
        " damper id, shock number, shockid, damperid, numero di serie, numero de serie, id ammortizzatore"
    ),
    "pack": _set(
        "pack, valve pack, valving, valve, shims, stack, shim stack, ventilpaket, paket, ventil, clapet, clapets,"
        " valvula, valvulas, pacco, pacco valvole, pacco lamelle, lamelle, empilage, build, valvepack, shimstack, "
        "valve code,"
        " valve stack, paquete, jeu de clapets, jeu clapets, shimpaket, valve setting, plattenpaket, packet, config "
        "valve"
    ),
    "run": _set(
        "run, lauf, messung, versuch, essai, ensayo, prova, run no, run number, test no, test number, versuch nr, "
        "pass,"
        " run id, run nr, lauf nr, prueba, corrida, n essai, test, block, record, sweep, prova n, essai n, serie, "
        "series"
    ),
    "cycle": _set("cycle, cycles, zyklus, zyklen, ciclo, cicli, cycle no, cycle number, zyklus nr, cyc, n cycle"),
    "direction": _set("direction, richtung, sens, sentido, direccion, direzione, dir, stroke direction, phase, "
                      "side, stufe"),
    "index": _set("index, idx, sample no, no, nr, row, n, i, line, point, pt, scan, record no, messwert, punkt, "
                  "sample, samples, #"),
}  # fmt: skip
COMPRESSION = _set(
    "druckkraft, druckstufenkraft, "
    "compression, comp, bump, jounce, compressive, druckstufe, compresion, compressione, einfedern, druck, cmp, "
    "compr,"
    " compress, dru, c, cpr, schub, kompression, inward, druckrichtung, compressione, chiusura, bound, compressn"
)
REBOUND = _set(
    "zugkraft, zugstufenkraft, "
    "rebound, reb, droop, extension, tension, tensile, zugstufe, detente, rebote, extensione, estensione, ritorno, "
    "ausfedern,"
    " zug, reb., rbd, r, rbnd, ext, zugrichtung, apertura, distensione, det, reboud, outward, expansion, espansione,"
    " rebond, tirage, traccion, trazione, traction, extensions"
)
#: words by which a column is a goal or a by-product rather than the measurement itself
LESSER = _set(
    "set, soll, sollwert, command, cmd, target, demand, consigne, nominal, raw, roh, setpoint, reference, ref, ideal,"
    " consigna, obiettivo, unfiltered, ungefiltert, error, fehler, avg, average, mittel, filtered, filt, gefiltert,"
    " smoothed, std, stdev, calc, calculated, berechnet, filtre, filtrado, filtrato, command., commanded, fit, model,"
    " brut, crudo, grezzo, no gas, minus gas"
)
#: words that make a column something else altogether
OTHER = _set(
    "motor, rpm, gas, friction, reibung, spring, feder, side, lateral, seal, reservoir, reservoirs, ambient, room, "
    "air,"
    " umgebung, raum, wheel, drehzahl, power, energy, work, leistung, frequency, freq, frequenz, acceleration, accel,"
    " beschleunigung, ambiente, ambiante, resort, ressort, muelle, molla, humidity, voltage, current, strom, "
    "spannung,"
    " coefficient, damping coefficient, impulse, static, sampling, gaskraft, federkraft, reibkraft, reibungskraft"
)
#: displacement words that grow as the shock gets longer
LENGTHS = _set(
    "length, lange, longueur, longitud, lunghezza, extension, shock length, dampferlange, einbaulange, eye to eye"
)

_LOW = (
    r"(?:l/s|low[\s-]*speed|low|ls|lowspeed|langsam\w*|bv|basse[\s-]*vitesse|baja[\s-]*velocidad|baja"
    r"|bass[ae][\s-]*velocita|bs)"
)
_HIGH = (
    r"(?:h/s|high[\s-]*speed|high|hi|hs|highspeed|schnell\w*|hv|haute[\s-]*vitesse|alta[\s-]*velocidad|alta"
    r"|alt[ae][\s-]*velocita|av)"
)
_BUMP = r"(?:comp(?:r\w*)?|bump|jounce|druckstufe)"
_DROP = r"(?:reb(?:ound)?|rebote|zugstufe|zug|detente|estensione|extension|ritorno)"
_GAP = r"[\s-]*(?:(?:de|a|alle|di|en|in|of|la|der|bei)[\s-]+)*"


def _both(speed: str, way: str, short: str) -> str:
    return rf"{short}|{short[:2]}[\s-]*{short[2]}|{speed}{_GAP}{way}|{way}{_GAP}{speed}"


_ADJUSTER_PATTERNS = {
    "lsc": _both(_LOW, _BUMP, "lsc"), "hsc": _both(_HIGH, _BUMP, "hsc"),
    "lsr": _both(_LOW, _DROP, "lsr"), "hsr": _both(_HIGH, _DROP, "hsr"),
    "cr": "cr", "c": f"c|{_BUMP}|compression", "r": f"r|{_DROP}",
}  # fmt: skip
ADJUSTER = re.compile("|".join(f"(?P<{name}>(?:{pattern}))" for name, pattern in _ADJUSTER_PATTERNS.items()))
CLICK_WORD = (
    r"(?:clicks?|clics?|klicks?|rasten|raste|rastungen|clks?|cks?|clk|positions?|pos|scatti|scatto|setting|crans?|notches|adj\w*|einstellung|reglage|ajuste|"
    r"regolazione|versteller|knob|screw)"
)


def direction_of(text: str) -> str | None:
    """Return "compression" or "rebound" where the words of a plain text name exactly one of them."""
    words = re.split(r"[\s/.,+-]+", text)
    long = [w for w in words if len(w) > 1] or words
    bump = any(w in COMPRESSION for w in long)
    drop = any(w in REBOUND for w in long)
    if not bump and not drop:
        bump, drop = "c" in words, "r" in words
    return None if bump == drop else ("compression" if bump else "rebound")
