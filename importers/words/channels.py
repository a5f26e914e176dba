"""The words that rigs and people write at columns, in the languages of rigs and people.

ASCII words are in the form `plain` returns: lower case, no punctuation, single blanks; others as they are written.
"""

from __future__ import annotations

from importers.words.spelling import word_set

#: what a column holds, by word; a name's words are matched one by one and as a whole
CHANNEL_WORDS: dict[str, frozenset[str]] = {
    "force": word_set(
        "force, load, loadcell, load cell, kraft, dampfkraft, dampferkraft, dampfungskraft, kraftaufnehmer, effort,"
        " fuerza, carga, forza, carico, lc, fz, f, frc, fd, fdamp, damperforce, shockforce, dampingforce, kmd, "
        "forces,"
        " forca, siła, 荷重, 減衰力, 力, dampkraft, dæmpekraft,"
        " kraefte, daempfkraft, daempferkraft, daempfungskraft,"
        " krafte, kraftmessdose, fuerzas, forze, cella di carico, celda de carga, capteur de force, cell, kracht,"
        " voima, síla, erő, сила, усилие, нагрузка, kuvvet, yük,"
        " forc, 载荷, 力值, 阻尼力, 하중, 힘, 감쇠력, 반력, 負荷, 抵抗力,"
        " δύναμη, φορτίο, belastning, zatížení, obciążenie, sila, forța, forta, jõud, spēks, jėga,"
        " зусилля, навантаження"
    ),
    "velocity": word_set(
        "velocity, speed, vel, v, geschwindigkeit, geschwindigkeiten, geschw, kolbengeschwindigkeit,"
        " dampfergeschwindigkeit, vitesse,"
        " velocidad, velocita, vs, vd, spd, shaftspeed, shaft speed, velocities, geschwindigk, vpiston, vshaft, "
        "vdamper,"
        " shaftvelocity, pistonvelocity, pistonspeed, shockvelocity, dampervelocity, xdot, vz, vitesses, speeds, "
        "rapidez, velocidade, hastighet, hastighed, predkosc, 速度, ピストン速度, snelheid, nopeus, rychlost, sebesség,"
        " скорость, hız, hizi, 속도, ταχύτητα, fart, brzina, hitrost, viteză, viteza, kiirus, 活塞速度, ātrums,"
        " greitis, швидкість, скорост"
    ),
    "displacement": word_set(
        "displacement, disp, displ, position, pos, travel, stroke, weg, hub, kolbenweg, dampferweg, federweg,"
        " auslenkung, deplacement, course, desplazamiento, recorrido, carrera, posicion, spostamento, corsa, "
        "posizione,"
        " x, s, z, lvdt, shockpos, shocktravel, traveling, wegaufnehmer, einfederung, enfoncement, hubweg, dsp, "
        "shaftpos,"
        " deslocamento, lage, vandring, slaglængde, przemieszczenie, skok, 変位, ストローク,"
        " actuator position, shocktravel, lageposition, verfahrweg, pot, poti, potentiometer, potmeter, shaft, ram,"
        " laser, slag, asema, siirtymä, liike, dráha, posuv, poloha, zdvih, elmozdulás, út, löket, перемещение, ход,"
        " положение, konum, yol, yer değiştirme, strok,"
        " dist, distance, distancia, 位移, 行程, 位置, 변위, 스트로크, 위치, μετατόπιση, διαδρομή, θέση,"
        " einfederweg, ausfederweg, affondamento, bevægelse, forskyvning, posisjon, förskjutning, forflytning,"
        " uitslag, positie, verplaatsing, położenie,"
        " droga, pomak, hod, deplasare, cursa, cursă, poziție, asend, lägesgivare, переміщення, положення, преместване"
    ),
    "time": word_set(
        "time, t, zeit, temps, tiempo, tempo, timestamp, elapsed, laufzeit, messzeit, zeitstempel, elapsedtime, "
        "clock,"
        " tid, czas, 時間, tijd, aika, čas, idő, время, zaman, süre, 时间, 시간, χρόνος, timp, vrijeme, aeg,"
        " tout, sec, secs, seconds, sekunden, heure, ora, hora, uhrzeit, instant, zeitpunkt, duree, durata,"
        " ts, x value, epoch, unixtime, unix time, stamp, zeitmarke, horodatage, час"
    ),
    "temperature": word_set(
        "temperature, temp, temperatur, temperatura, oltemperatur, oiltemp, oeltemperatur, bodytemp, tmp, ttemp, "
        "toil,"
        " toel, gehausetemperatur, dampfertemperatur, tbody, thermocouple, thermoelement, oiltemperature, shocktemp,"
        " tdamper, olio, teplota, lämpötila, température, температура, sıcaklık, 温度, 온도, θερμοκρασία, hőmérséklet,"
        " temperatuur"
    ),
    "pressure": word_set("pressure, press, druck, pression, presion, pressione, gasdruck, gaspressure, pgas, p, prs"),
}  # fmt: skip
#: columns that state the run or the setting of a row
TABLE_WORDS: dict[str, frozenset[str]] = {
    "shock": word_set(
        "shock, damper, serial, sn, s/n, matr, n matr, dampfer, stossdampfer, amortisseur, amortiguador,"
        " ammortizzatore, shock id,"
        " unit, sample, specimen, shock no, serial number, seriennummer, muestra, pruefling, prufling, shock name,"
        " amortecedor, amortizor, amortisaator, amortizators, amortizatorius, iskunvaimennin, iskari, støtdemper,"
        " støddæmper, stötdämpare, dämpare, schokdemper, schokbreker, amortyzator, tlumič, lengéscsillapító,"
        " амортизатор, amortisör, amortizer, shock absorber, absorber,"
        " damper serial, shock serial, damper no, damper serial no, shock serial no, damper serial number,"
        " demper, tlumic, eprouvette, proefstuk, probekorper, prufkorper, prufobjekt, prufteil,"
        " campione, probeta, probka, provkropp,"
        " test piece, test object, testobjekt, kappale, ダンパー,"
        " αμορτισερ, αποσβεστηρας, амортизатор, amortyzatora,"
        " 시험품, 시료, 시료 번호, 시료번호, 제품번호, 제품 번호, 품번, 쇽, 쇼크 업소버, 쇽업소버, nayte, näyte,"
        " dut, device under test, part no, part number, emne, 样品, 样件, vzorek, numune, numune no, prøve,"
        " ショック, 供試体, 供試品, 减振器, 減衰器, 试件, 减振器编号, 减震器, 减震器编号, 댐퍼, 시험편,"
        " damper id, shock number, shockid, damperid, numero di serie, numero de serie, id ammortizzatore, daempfer,"
        " stossdaempfer, shock tested, tested shock, damper tested, tested damper, damper name, unit under test, uut,"
        " shock s/n, damper s/n, ショック名, ショック番号,"
        " n serie, n de serie, n° serie, n° de serie, n. serie, n. de serie, nr serie,"
        " no serie, no de serie, no. de serie, num. de serie, nro de serie, nro serie, numero serie, serien nr,"
        " serien-nr, seriennr, serie nr, serie-nr, serienr, serienummer, serienumber, matricola, matricule,"
        " numer seryjny, nr seryjny, výrobní číslo, sériové číslo, sarjanumero, sarjanro, gyári szám, sorozatszám,"
        " seri no, seri numarası, серийный номер, заводской номер, シリアル番号, シリアルno, シリアル, 製造番号,"
        " cartridge, fork cartridge, kartusche, cartouche, cartuccia, cartucho,"
        " pieza, pieza ensayada, pezzo, peca, piece testee, bauteil, 品名, 製品名, 供試体名,"
        " fork leg, fork, gabel, gabelholm, gabelbein, fourche, forcella, horquilla, vorkpoot, strut, federbein, 쇼크,"
        " 쇼크업소버, 型号, 减震器型号, dempernummer,"
        " 序列号, 出厂编号, 일련번호, 제조번호, n/s, ダンパー名, ダンパー番号, 供試品番号, skokbreker,"
        " rugóstag, tłumik, tlumik, 品番, 型號, 避震器, 避震器編號, 減震器, 減震器編號, 阻尼器, 序列號"
    ),
    "pack": word_set(
        "kolbenpaket, kolbenbestuckung, pacchetto lamelle, pacchetto, pakka, venttiilipakka, klepstapel, shimspaket, "
        "pack, valve pack, valving, valve, shims, stack, shim stack, ventilpaket, paket, ventil, clapet, clapets,"
        " ventilsatz,"
        " valvula, valvulas, pacco, pacco valvole, pacco lamelle, lamelle, empilage, build, valvepack, shimstack, "
        "valve code,"
        " ventilierung, ventilbestuckung, valvatura, valvado, idraulica, valvolatura, zawory, zawor, pakket, kleppen,"
        " valve stack, paquete, jeu de clapets, jeu clapets, shimpaket, valve setting, plattenpaket, packet, config "
        "valve, spec, valving spec, valve spec, valving code, piston, bestuckung, abstimmung, clapeterie, valvulado,"
        " paquete de valvulas, paquete valvulas, pacote de valvulas, pacote, zestaw zaworow,"
        " kleppenpakket, sada ventilu,"
        " sada ventilov, venttiilipaketti, ventilpakke, ventilsats, バルブ, バルブ仕様, シム,"
        " laminas, paquete de laminas, paquete laminas, juego de laminas, laminas y valvulas, lamelas,"
        " pacote de laminas,"
        " pacote laminas, conjunto de laminas, jeu de lamelles, pile de clapets, pile de lamelles, empilement,"
        " lamelles,"
        " lamellenpaket, plattchenpaket, scheibenpaket, lamellen, taratura, pacco lamellare, set lamelle,"
        " ventielpakket,"
        " kleppakket, klepset, shimset, shimspakke, shimpakke, pakke, skivepakke, lamellpakke, lamellpaket, shimsats,"
        " brickpaket,"
        " shimmipakka, lamellipakka, sada planzet, sada podlozek, sada lamel, planzety, planzeta, pakiet płytek,"
        " zestaw płytek, pakiet plytek, zestaw"
        " plytek, pakiet zaworow, pakiet zaworowy, pakiet podkladek, szelepcsomag, szelepkeszlet, lemezcsomag, пакет,"
        " пакет клапанов, пакет шайб, набор шайб, набор клапанов, клапаны, шайбы, шим-пакет, supap paketi,"
        " sim paketi, şim"
        " paketi, 仕様, シム仕様, シム構成, シム組み, 阀片, 阀片组, 阀片组合, 阀系, 閥片, 閥片組, 밸브 팩, 밸브팩,"
        " 심, 심 구성, 밸빙"
    ),
    "run": word_set(
        "run, lauf, messung, versuch, essai, ensayo, prova, run no, run number, test no, test number, versuch nr, "
        "pass,"
        " run id, run nr, lauf nr, prueba, corrida, n essai, test, block, record, sweep, prova n, essai n, serie, "
        "series"
    ),
    "cycle": word_set("cycle, cycles, zyklus, zyklen, ciclo, cicli, cycle no, cycle number, zyklus nr, cyc, n cycle"),
    "direction": word_set("direction, richtung, sens, sentido, direccion, direzione, dir, stroke direction, phase, "
                      "side, stufe"),
    "index": word_set("index, idx, sample no, no, nr, row, n, i, line, point, pt, scan, record no, messwert, punkt, "
                  "sample, samples"),
}  # fmt: skip
#: a column of the places on the car, which tell shocks apart where no column names them
CORNERS = word_set("corner, corners, car corner, ecke, coin, rincon, angolo, hoek, fitted at, fitted to")
#: words by which a column is a goal or a by-product rather than the measurement itself
LESSER = word_set(
    "set, soll, sollwert, command, cmd, target, demand, consigne, nominal, raw, roh, setpoint, reference, ref, ideal,"
    " consigna, obiettivo, unfiltered, ungefiltert, error, fehler, avg, average, mittel, filtered, filt, gefiltert,"
    " smoothed, std, stdev, calc, calculated, berechnet, filtre, filtrado, filtrato, commanded, fit, model,"
    " brut, crudo, grezzo, no gas, minus gas, requested, programmed, prog, desired, wanted, vorgabe, vorgegeben, cible,"
    " objetivo, theoretical, theoretisch, theorique, teorico, teorica, zadana, zadany, gewenst, ingesteld,"
    " borvarde, adc, limit, limits, tolerance, toleranz, grenze, grenzwert, limite, spec,"
    " uncorrected, unkorrigiert, uncompensated"
)
#: what measures travel, where its name alone is no channel's
TRAVEL_SENSORS = word_set("encoder, drehgeber, codeur, linear, lvdt, wire, string, stringpot, drawwire, seilzug")
#: words by which a whole sheet is what a shock should do, not what it did
WANTED = word_set(
    "target, targets, soll, sollwert, sollwerte, sollkurve, zielwerte, consigne, consignes, cible, objetivo, objetivos,"
    " obiettivo, desired, wanted, ideal, vorgabe, vorgaben, cil, hedef, tavoite, malvarde, doel, 目標, 目标"
)
#: words of a column that says how far the one of means scatters
EXTREMES = word_set("min, max, minimum, maximum, std, stdev, sd, sigma, low, high, lowest, highest, mini, maxi")
MEANS = word_set(
    "avg, average, mean, mittel, mittelwert, moyenne, media, medio, moyen, durchschnitt, median, moy, mw, ka, ka.,"
    " keskiarvo, ortalama, ort, promedio, prom, gem, gemiddelde, gemiddeld, middel, medel, medelvärde, snitt,"
    " gjennomsnitt, gennemsnit, gns, průměr, prům, średnia, śr, átlag, среднее, средн, средняя, 평균, 平均,"
    " 平均值, 均值, média, médio, x̄, μέσος, medie, keskmine, prosjek, povprečje"
)
#: words of how far repeats scatter, which are never the force itself
DEVIATIONS = word_set(
    "σ, sd, std, stdev, stddev, sigma, 1s, 2s, 1σ, 2σ, stabw, stdabw, standardabweichung, streuung, se, sem, deviation,"
    " dev, devs, scatter, spread, uncertainty, unsicherheit, u95, repeatability, ecart, incertitude, dispersion,"
    " scarto, deviazione, scostamento, incertezza, desv, desvest, desviacion, desvio, incertidumbre, afw, stdafw,"
    " spreiding, onzekerheid, spredning, spridning, avvik, stdavv, stdavvik, cv, err,"
    " afvigelse, avvikelse, osäkerhet, hajonta, keskihajonta,"
    " odchylka, odch, odchylenie, rozptyl, nejistota, sapma, szórás, ско, отклонение, откл, разброс, απόκλιση, abatere,"
    " hälve, σx, odstupanje"
)
#: words that make a column something else altogether
OTHER = word_set(
    "motor, rpm, gas, friction, reibung, spring, feder, side, lateral, seal, reservoir, reservoirs, ambient, room, "
    "air,"
    " umgebung, raum, wheel, drehzahl, power, energy, work, leistung, frequency, freq, frequenz, acceleration, accel,"
    " beschleunigung, ambiente, ambiante, resort, ressort, muelle, molla, humidity, voltage, current, strom, "
    "spannung,"
    " ratio, rapport, verhaltnis, quotient, rapporto, differenz, forhold, forholdet, forhallande, kvot, verhouding,"
    " relacion, razon, cociente, proporcion, relacao, razao, proporcao, proporzione, stosunek, pomer, suhde, suhdeluku,"
    " arany, oran, omjer, razmerje, raport, соотношение, отношение, 比, 比率, 比值, 비율, 비,"
    " coefficient, damping coefficient, impulse, static, sampling, gaskraft, federkraft, reibkraft, reibungskraft"
)
#: words of a force while the rig speeds up, and while it slows down
SPEEDING = word_set("open, accel, accelerating, acceleration, acc, opening, beschleunigt, beschleunigend, up")
SLOWING = word_set("close, decel, decelerating, deceleration, dec, closing, verzogert, verzogernd, down")
#: words of a column that is the sum of others
TOTAL = word_set("total, sum, gesamt, gesamtkraft, summe, totale, somme, suma, soma, totaal, kokonais")
#: first words of a line that sums up the rows above
SUMMARY = word_set(
    "min, max, minimum, maximum, mean, average, avg, std, stdev, rms, sum, total, peak, peaks, median, mittel,"
    " mittelwert, summe, spitze, moyenne, media, promedio, maximo, minimo, massimo, med, count,"
    " area, mittelw, standardabweichung, stabw, varianz, variance, std dev, std deviation, standard deviation,"
    " keskiarvo, ecart type, desvio, desviacion, deviation, scatter, streuung, range, spread, delta, difference, ratio"
)
#: names of a column of remarks, which rows may leave out
REMARKS = word_set(
    "note, notes, remark, remarks, comment, comments, bemerkung, bemerkungen, anmerkung, commentaire, nota, notas"
)
#: displacement words that grow as the shock gets longer
LENGTHS = word_set(
    "length, lange, longueur, longitud, lunghezza, extension, shock length, dampferlange, einbaulange, eye to eye"
)
#: what a row of the channels' names above a table is called
CHANNEL_LABELS = word_set(
    "name, names, channel, channels, channel name, channel names, signal, signals, signal name, label, description,"
    " title, variable, parameter, quantity, sensor, measurement, bezeichnung, kanal, kanale, kanalname, messgrosse,"
    " signalname, nom, voie, grandeur, designation, nombre, canal, magnitud, nome, canale, grandezza, naam, kanaal,"
    " navn, namn, nimi, kanava, název, kanál, nazwa, kanał, név, csatorna, ad, isim, имя, канал, название, 名称, 通道,"
    " 通道名称, 名前, チャンネル, チャンネル名, 信号名, 이름, 채널, 채널명, 신호명, ch"
)
#: rows of what the numbers of a channel are multiplied by, and of what is added to them
FACTORS = word_set(
    "scale, scaling, factor, gain, multiplier, slope, faktor, skalierung, massstab, facteur, echelle, factor de escala,"
    " escala, fattore, scala, k, sensitivity, scale factor, cal factor"
)
ZEROS = word_set("offset, zero, tare, tara, nullpunkt, intercept, bias")
#: names of a column of words that says where on the car, or which of several, a shock is; of numbers some are channels
PLACE_HEADS = CORNERS | word_set(
    "position, pos, place, location, wheel, wheels, wheel position, mounting position, mounted, station, placement,"
    " rad, radposition, einbauort, einbauposition, einbaulage, einbaustelle, platz, ort, lage, roue, emplacement,"
    " place roue, position roue, ruota, posizione, posto, rueda, posicion, ubicacion, lugar, roda, posicao,"
    " localizacao, hjul, hjulposition, plats, placering, plassering, posisjon, wiel, positie, plaats, kolo, koło,"
    " pozice, pozycja, miejsce, umisteni, pyora, paikka, sijainti, asema, tekerlek, konum, yer, kerek, hely, pozicio,"
    " колесо, место, положение, позиция, 位置, 部位, 车轮, 車輪, 轮位, 安装位置, 取付位置, 取付け位置, ポジション,"
    " 위치, 장착위치, 장착 위치, 바퀴, 휠"
)
