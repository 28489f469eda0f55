"""Sixty ordinary ballast labels of our own, for every kind of ballast: lamp type, kind of ballast, text.

Wordings as they are met (common practice, no source); makers, models and numbers are invented.
"""

T8, QUAD, QUAD_2, TWIN, LONG, TRIPLE, T5, T12 = (
    "G13/32/linear",
    "G24q-3/26/quad",
    "G24d-3/26/quad",
    "G23/9/twin",
    "2G11/36/long-twin",
    "GX24q-3/32/triple",
    "G5/28/linear",
    "G13/40/linear/t12",
)

LABELS = [
    (
        T8,
        "electronic",
        "Electronic ballast model AB-232-UNV-IS for (2) F32T8. 120-277V 50/60Hz 0.49A. BF .88 PF>.98 THD<10%",
    ),
    (
        T8,
        "electronic",
        "INSTANT START. FOR 1 OR 2 F32T8 LAMPS. MIN STARTING TEMP 0F/-18C. MAX CASE TEMP 70C. CLASS P. SOUND RATED A",
    ),
    (
        T8,
        "electronic",
        "1-4 LAMPS F32T8, F25T8, F17T8. UNIVERSAL VOLTAGE 120V-277V, 50/60 HZ. NO PCBS. TYPE 1 OUTDOOR",
    ),
    (
        T8,
        "electronic",
        "Programmed start ballast. Lamps: F32T8 or F32T8/U6. Line current .29 A. Ballast factor 0.88. Made in Mexico",
    ),
    (
        T8,
        "electronic",
        "Cat. No. XE-2P32-UNV. Operates (2) F32T8. Parallel. End of life protection. Meets FCC part 18. UL, CSA",
    ),
    (
        T8,
        "electronic",
        "HF ballast 2 x 32 W 220-240V 50/60Hz tc 70°C ta -20...50°C λ 0.98 IEC 61347 CE RoHS",
    ),
    (
        T8,
        "electronic",
        "Electronic 2/32W T8 rapid start. High power factor. Thermally protected. Ground fixture. 5 year warranty",
    ),
    (
        T8,
        "electronic",
        "Input 59W. 120V 60Hz. For use with F32T8 lamps only. Date code 2316. Patent pending",
    ),
    (
        T8,
        "electronic",
        "Model QHE 4X32T8/UNV-ISN. Lamp type: F32T8. Blue, red, yellow leads. Disconnect power before servicing",
    ),
    (
        T8,
        "electronic",
        "ELECTRONIC BALLAST FOR FLUORESCENT LAMPS (3) F32T8 OR (2) F32T8. CAUTION: RISK OF ELECTRIC SHOCK",
    ),
    (
        T8,
        "magnetic",
        "Magnetic ballast, rapid start, (2) F32T8, 265 mA lamps",
    ),
    (
        T12,
        "magnetic",
        "RAPID START BALLAST. TWO F40T12. 120V 60HZ .80A. HIGH POWER FACTOR. CLASS P. SOUND RATING A. CORE AND COIL",
    ),
    (
        T12,
        "magnetic",
        "Magnetic. For 2 F40T12 lamps. Line volts 120. Line amps 0.75. Non-PCB. Made in U.S.A.",
    ),
    (
        T12,
        "magnetic",
        "Choke 230V 50Hz 0.43A 40W T12 EEI=B2",
    ),
    (
        QUAD,
        "electronic",
        "Electronic ballast (1) or (2) CFQ26W/G24q. 120-277V 50/60Hz. Programmed start. BF 1.00. Class P",
    ),
    (
        QUAD,
        "electronic",
        "For 1 or 2 26W 4-pin compact fluorescent lamps. 120V/277V. PF .98. EOL protection. No PCBs",
    ),
    (
        QUAD,
        "electronic",
        "(2) CFQ26W/G24q or (1) CFTR42W/GX24q or (2) CFTR26W/GX24q. Sound rated A. Max case temp 75C",
    ),
    (
        QUAD,
        "electronic",
        "2 x 26W. Model CF-226-UNV. Input current 0.45A. THD <10%. Lead free. RoHS compliant",
    ),
    (
        QUAD,
        "electronic",
        "EVG 2x26W 220-240V 50/60Hz 0,24A λ 0,95 tc 65°C EN 61347-2-3 CE",
    ),
    (
        QUAD,
        "electronic",
        "Electronic. Lamps 26W/32W/42W 4-pin. Min start temp -5°F. Wiring diagram: red, yellow, blue",
    ),
    (
        QUAD,
        "electronic",
        "FSQ-26-E-G24q=3 electronic ballast 230V",
    ),
    (
        QUAD,
        "electronic",
        "Serial no. 4711-88. 26 watt quad tube, 4 pin. High frequency 40 kHz. Type CC rated",
    ),
    (
        QUAD,
        "electronic",
        "One CFTR42W or two CFQ26W. Programmed rapid start. Inherent thermal protection",
    ),
    (
        QUAD,
        "electronic",
        "CFL BALLAST, G24q-3, 26 WATT. 277 V. 60 Hz. Indoor use only. Dry locations only",
    ),
    (
        QUAD_2,
        "magnetic",
        "Magnetic ballast for one CFQ26W/G24d 2-pin lamp. 120V 60Hz .55A. HPF. Class P",
    ),
    (
        QUAD_2,
        "magnetic",
        "Reactor ballast 120 volts 60 cycles one 26W quad tube lamp G24d-3. Sound rating A",
    ),
    (
        QUAD_2,
        "magnetic",
        "Preheat magnetic ballast. (1) 26W 2-pin compact fluorescent. 277V. Normal power factor. Ground ballast case",
    ),
    (
        QUAD_2,
        "magnetic",
        "Choke 1 x 26W 230V 50Hz 0.325A G24d-3 CE VDE ENEC",
    ),
    (
        QUAD_2,
        "magnetic",
        "KVG 26W 230V 50Hz 0,32A Drossel, hergestellt in EU",
    ),
    (
        QUAD_2,
        "magnetic",
        "Autotransformer ballast for 26W. Input 120V, line current .60A. Mfg date 03/2014",
    ),
    (
        TWIN,
        "magnetic",
        "Choke 5/7/9/11 W 230V 50Hz 0.17A",
    ),
    (
        TWIN,
        "magnetic",
        "Reactor 120V 60Hz for one 5W, 7W or 9W twin tube lamp",
    ),
    (
        TWIN,
        "magnetic",
        "Magnetic ballast, 9W G23, 120 VAC, 60 HZ, .18 AMPS. NO PCB'S",
    ),
    (
        TWIN,
        "magnetic",
        "Ballast for 9 watt lamp. 110-120V. Made in Taiwan. Cat no 9-120",
    ),
    (
        LONG,
        "electronic",
        "Electronic (2) FT36W/2G11 120-277V. Rapid start. Class P. Type HL",
    ),
    (
        LONG,
        "electronic",
        "1 or 2 lamps: FT36W/2G11, 36W long twin. BF 0.90. Efficiency > 90%. Ta max 50°C",
    ),
    (
        LONG,
        "magnetic",
        "Magnetic 36W 230V 50Hz 0.43A. EEI = B1",
    ),
    (
        LONG,
        "electronic",
        "HF 1x36W / 2x36W TC-L 36W 220-240 V, 0.16-0.32 A",
    ),
    (
        LONG,
        "electronic",
        "2G11 36W ballast. 50/60 Hz. Lot 22A17. Use copper wire. Terminal block 18 AWG",
    ),
    (
        TRIPLE,
        "electronic",
        "CFTR32W/GX24q, CFTR26W/GX24q, 120 to 277V, electronic, programmed start, class P, sound A",
    ),
    (
        TRIPLE,
        "electronic",
        "For one 26/32/42W 4-pin lamp. PF > 0.98. THD < 10 %. Crest factor < 1.7",
    ),
    (
        TRIPLE,
        "electronic",
        "Dimensions 4.9 in x 2.4 in. Weight 0.5 lbs. Operates 32W triple tube lamps GX24q-3. Universal voltage",
    ),
    (
        TRIPLE,
        "electronic",
        "Electronic gear 1 x 32W GX24q-3. Warranty 3 years. Install in accordance with national electrical code",
    ),
    (
        T5,
        "electronic",
        "Programmed start T5 ballast for (2) F28T5. 120-277V, 50/60Hz. EOL. BF 1.0. Tc 75°C",
    ),
    (
        T5,
        "electronic",
        "HF 2x28W T5 220-240V 0.27A EEI = A2",
    ),
    (
        T5,
        "electronic",
        "1-2 lamps F28T5, F21T5 or F14T5. Min. starting temp. -20°F/-29°C. Striation control",
    ),
    (
        T5,
        "electronic",
        "Electronic ballast. Lamp: F28T5. Class P thermally protected. Auto restart. Push-in connectors",
    ),
    (
        T8,
        "dimming",
        "Dimming ballast 0-10V, (2) F32T8, 120-277V, violet and gray wires",
    ),
    (
        QUAD,
        "dimming",
        "0-10V dimming ballast for 1 or 2 26W 4-pin lamps CFQ26W/G24q. Programmed start. Class P",
    ),
    (
        T8,
        "electronic",
        "Balastro electrónico para 2 lámparas F32T8, 120-277 V, 50/60 Hz, alto factor de potencia, hecho en México",
    ),
    (
        QUAD,
        "electronic",
        "Ballast électronique pour 1 ou 2 lampes 26W G24q-3, 120V, fabriqué au Mexique, protection thermique",
    ),
    (
        QUAD,
        "electronic",
        "Elektronisches Vorschaltgerät für 2x26W Kompaktleuchtstofflampe, Nennspannung 230V, 50 Hz, Typ EV-226",
    ),
    (
        TWIN,
        "magnetic",
        "Balasto magnético 9W 120V 60Hz 0.18A, una lámpara",
    ),
    (
        T8,
        "electronic",
        "(2) F32T8. Replace lamps with same type. Qualified personnel. Save these instructions",
    ),
    (
        T8,
        "electronic",
        "F32T8 2 lamps, series circuit, modified rapid start, open circuit voltage 600V, UL 935, ANSI C82.11",
    ),
    (
        QUAD,
        "electronic",
        "26W (1 lamp or 2 lamps), energy efficient, premium, Title 24, FCC non-consumer, made in China",
    ),
    (
        TRIPLE,
        "electronic",
        "US Patent 5,123,456 and 6,234,567. Lamp 32W GX24q. 0.30 amps at 120V, 0.13 amps at 277V. Electronic",
    ),
    (
        LONG,
        "electronic",
        "Non-dimming electronic ballast. FT36W/2G11 (2). Parallel operation. Damp location. Remote mounting 18 ft",
    ),
    (
        T12,
        "magnetic",
        "F40T12 (2) trigger start 120V, black white blue red yellow, insulate unused leads, auto reset",
    ),
    (
        QUAD_2,
        "magnetic",
        "26W G24d-3 core & coil ballast, 277 V, 0.23 A, mounting holes 3 in, sound level A, type 1 outdoor",
    ),
]
