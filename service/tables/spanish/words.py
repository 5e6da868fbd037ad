"""The terms of the Spanish texts, one for each thing, and the words that other texts name.

===========================  =====================================================================
air gap                      espacio de aire
air handler                  manejadora
authority having             autoridad competente
jurisdiction
auxiliary pan                bandeja auxiliar
back-fall                    contrapendiente
blocked, clogged             obstruido; blockage: obstrucción
boiler                       caldera
check valve                  válvula check
cleanout                     registro de limpieza
coil                         serpentín
condensate                   condensado
cooling                      enfriamiento
cut-out                      interruptor de corte; of water level: por nivel de agua
dew point                    punto de rocío
drain, drain line            drenaje, línea de drenaje
drain pan                    bandeja de condensado; short: bandeja
dry bulb, wet bulb           bulbo seco, bulbo húmedo
elbow                        codo
fall                         caída
fan                          ventilador
finding, remedy, caution     hallazgo, remedio, precaución
float switch                 interruptor de flotador; safety float: flotador de seguridad
floor drain                  coladera de piso
flow                         caudal
flue gas                     gases de combustión
furnace                      calefactor
head                         carga; shut-off head: carga máxima
invert                       fondo del tubo
lift                         altura de elevación
line                         línea; run: recorrido; segment: tramo; of one pipe size: trecho
neutralizer                  neutralizador
outlet drop                  desnivel de salida
overflow                     desborde, desbordarse
pitch                        pendiente
plug                         tapón
pump                         bomba; its tank: tanque; its tube: tubo
report                       reporte
sag, standing water          pandeo, agua estancada
sanitary line                línea sanitaria
seal                         sello de agua; its depth: profundidad del sello
sewer gas                    gas de alcantarilla
slime                        lama
trap                         sifón (trampa)
union                        tuerca unión
unit                         unidad; symbol of measure: unidad de medida
vent                         ventilación
wet/dry vacuum               aspiradora para agua
===========================  =====================================================================

A technician is spoken to as usted. Numbers keep the decimal point, as in the United States and Mexico; units of measure
are their symbols. Member names, codes and clauses of standards stay as they are.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "physics": "física",
    "common practice": "práctica común del oficio",
    "The facts contradict each other": "Los datos se contradicen",
    "deep enough": "suficiente",
    "as on the unit's side": "como del lado de la unidad",
    "the first length": "el primer trecho",
    "repeating series, even demand": "serie que se repite, demanda pareja",
    "brush, wet/dry vacuum, jug, {plugs} plugs": "cepillo, aspiradora para agua, jarra, {plugs} tapones",
    "{named} and {count} more": "{named} y {count} más",
    "more than 3,650": "más de 3,650",
    "the line": "la línea",
    " at {length}": " en {length}",
    'length "{name}"': 'el trecho "{name}"',
    "length number {number}": "el trecho número {number}",
    "the next of the list": "el siguiente de la lista",
    "the place of disposal": "el lugar de descarga",
    "pvc-schedule-40": "PVC cédula 40",
    "cpvc-sdr-11": "CPVC SDR 11",
    "copper-type-m": "cobre tipo M",
    "copper-type-l": "cobre tipo L",
    "floor drain": "una coladera de piso",
    "mop sink": "una tarja de aseo",
    "laundry tray": "un lavadero",
    "sanitary line": "una línea sanitaria",
    "soil stack": "una bajante de aguas negras",
    "storm drain": "un drenaje pluvial",
    "place outdoors": "un lugar al exterior",
    "roof surface": "una superficie de azotea",
    "walkway": "un paso peatonal",
    "dry well": "un pozo de absorción",
    "finished ceiling": "el cielo raso acabado",
    "occupied space": "el espacio ocupado",
    "electrical equipment": "el equipo eléctrico",
    "stored goods": "las cosas almacenadas",
    "attic": "el ático",
    "crawl space": "el espacio bajo el piso",
    "above ceiling": "el espacio sobre el cielo raso",
    "closet": "el clóset",
    "suction": "succión",
    "pressure": "presión",
    "unit side": "lado de la unidad",
    "outlet side": "lado de la salida",
    "raise": "suba",
    "lower": "baje",
    "wired": "está cableado",
    "not told about": "no se indicó",
    "not wired": "no está cableado",
    "missing": "no existe",
    "rated capacity": "capacidad nominal",
    "measured": "medido",
    "Condensate rate": "Caudal de condensado",
    "Trap": "Sifón",
    "Drain line": "Línea de drenaje",
    "Pitch of the line": "Pendiente de la línea",
    "Size of the line": "Tamaño de la línea",
    "Pump": "Bomba",
    "Place of disposal": "Lugar de descarga",
    "Time to overflow": "Tiempo hasta el desborde",
    "condensate rate from capacity": "caudal de condensado según la capacidad",
    "condensate rate from air states": "caudal de condensado según el aire de ambos lados",
    "condensate rate from the coil": "caudal de condensado según el serpentín",
    "trap sizing": "medidas del sifón",
    "pitch of the line": "pendiente de la línea",
    "size of the line": "tamaño de la línea",
    "survey of the line": "levantamiento de la línea",
    "time to overflow": "tiempo hasta el desborde",
    "drying out of the trap": "secado del sifón",
    "water of the furnace": "agua del calefactor",
    "cooling, air_states, coil or measured_rate": "capacidad de enfriamiento, aire de ambos lados, serpentín o caudal medido",
    "pan_pressure": "presión en la bandeja",
    "line.run": "recorrido de la línea",
    "line.fall": "caída de la línea",
    "a condensate rate": "un caudal de condensado",
    "a condensate rate for it to carry": "un caudal de condensado que deba llevar",
    "usual": "la causa usual",
    "common": "una causa común",
    "occasional": "una causa ocasional",
    "rare": "una causa rara",
    "nitrogen": "nitrógeno",
    "air": "aire",
    "carbon dioxide": "dióxido de carbono",
    "pump moves": "bomba mueve",
    "clean line carries": "línea limpia lleva",
    "a cleanout that opens by hand": "un registro de limpieza que abra a mano",
    "a union at the unit": "una tuerca unión en la unidad",
    "engineered; beyond the table": "cálculo de ingeniería; fuera de la tabla",
}
