"""The findings of `service.tables.findings.symptom` in Spanish."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "Keep off, switch the power off at the breaker from a dry place, and lock it out before anything else.": "No se acerque, corte la energía en el interruptor desde un lugar seco y bloquéela antes de cualquier otra cosa.",
    "Water is getting into the building.": "Está entrando agua al edificio.",
    "Turn the cooling off at the thermostat, protect what is below, and leave the cooling off until the drain is proved.": "Apague el enfriamiento en el termostato, proteja lo que está debajo y deje apagado el enfriamiento hasta comprobar el drenaje.",
    "Sewer gas is reported in the building: it is poisonous and can burn.": "Se informa de gas de alcantarilla en el edificio: es venenoso y puede arder.",
    "No flames; switch the fan off, open windows, close the drain's open end, and leave where the smell is strong. If it could be fuel gas, call the gas utility from outside.": "Sin flamas; apague el ventilador, abra ventanas, cierre el extremo abierto del drenaje y salga de donde el olor sea fuerte. Si pudiera ser gas combustible, llame desde afuera a la compañía de gas.",
    'Most likely: "{cause}", {commonness} behind this symptom. Of what is known, for it: {count_for}; against it: {count_against}.': 'Lo más probable: "{cause}", {commonness} detrás de este síntoma. De lo que se sabe, a favor: {count_for}; en contra: {count_against}.',
    'Two causes lie close together: "{first}" and "{second}".': 'Dos causas están muy cerca una de la otra: "{first}" y "{second}".',
    "Tell them apart before changing anything. {check}": "Distíngalas antes de cambiar algo. {check}",
    'With what was observed, no cause that is listed for this symptom is likelier than something not listed. The first of them is "{cause}".': 'Con lo que se observó, ninguna causa de la lista de este síntoma es más probable que algo que no está en la lista. La primera de ellas es "{cause}".',
    "Look again at what was observed, ask once more what the customer sees, and try another symptom that describes it.": "Revise otra vez lo que se observó, pregunte de nuevo qué ve el cliente y pruebe con otro síntoma que lo describa.",
    "There is no safety float: when the drain blocks or the pump dies, the cooling goes on.": "No hay flotador de seguridad: cuando se obstruye el drenaje o se muere la bomba, el enfriamiento sigue.",
    "Fit a float switch or water-level cut-out in the pan, and in the tank where there is a pump, wired into the cooling call; trip it to prove it.": "Instale un interruptor de flotador o un interruptor de corte por nivel de agua en la bandeja, y en el tanque donde haya bomba, cableado a la llamada de enfriamiento; dispárelo para comprobarlo.",
    "Nothing but the symptom is known: the order says only how common the causes are.": "No se sabe nada más que el síntoma: el orden dice solo qué tan comunes son las causas.",
    "Make the next check, and send what it shows.": "Haga la siguiente revisión y envíe lo que muestre.",
    'These two do not go together: "{first}" and "{second}" Both count in the ranking.': 'Estas dos cosas no van juntas: "{first}" y "{second}" Las dos cuentan en el orden.',
    "Look again at both, and leave out the one that was wrong.": "Revise otra vez las dos, y omita la que esté equivocada.",
    "The unit's data give {count} further findings that do not bear on this symptom.": "Los datos de la unidad dan otros {count} hallazgos que no tienen que ver con este síntoma.",
    "Post the unit to the assessment to read them all.": "Envíe la unidad a la evaluación (assessment) para leerlos todos.",
}
