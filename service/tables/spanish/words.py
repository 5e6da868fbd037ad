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
sag, standing water          pandeo, agua estancada
sanitary line                línea sanitaria
seal                         sello de agua; its depth: profundidad del sello
sewer gas                    gas de alcantarilla
slime                        lama
trap                         sifón (trampa)
union                        tuerca unión
unit                         unidad; symbol of measure: unidad de medida
vent                         ventilación
===========================  =====================================================================

A technician is spoken to as usted. Numbers keep the decimal point, as in the United States and Mexico; units of measure
are their symbols. Member names, codes and clauses of standards stay as they are.
"""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "physics": "física",
    "common practice": "práctica común del oficio",
    "The facts contradict each other": "Los datos se contradicen",
}
