"""The findings of `service.tables.findings.maintenance_round` in Spanish."""

from collections.abc import Mapping

TEXTS: Mapping[str, str] = {
    "Units that cannot wait: {count} of {units}. Water is running over or about to, or sewer gas gets in.": "Unidades que no pueden esperar: {count} de {units}. El agua se desborda o está por desbordarse, o entra gas de alcantarilla.",
    "Have the cooling of these units turned off where water stands or runs, and visit them first, today.": "Haga apagar el enfriamiento de estas unidades donde haya agua estancada o corriendo, y visítelas primero, hoy.",
    "Units with something that fails: {count} of {units}.": "Unidades con algo que falla: {count} de {units}.",
    "Visit them in the order given; the reasons of each unit say what to look at, its assessment the rest.": "Visítelas en el orden dado; las razones de cada unidad dicen qué revisar, su evaluación lo demás.",
    "Units with nothing that fails and something that wants attention: {count} of {units}.": "Unidades sin nada que falle y con algo que pide atención: {count} de {units}.",
    "Put it right when the unit's turn comes.": "Corríjalo cuando le toque a la unidad.",
    "Units whose water nothing stops before it reaches something it damages: {count} of {units}.": "Unidades cuya agua nada detiene antes de que llegue a algo que daña: {count} de {units}.",
    "Carry a listed cut-out for each, fit and trip it, and tell the owner in writing where that is refused.": "Lleve un interruptor de corte listado para cada una, instálelo y dispárelo, y avise al dueño por escrito donde no lo acepten.",
    "Units of which nobody has said what stops the water before it damages something: {count} of {units}.": "Unidades de las que nadie ha dicho qué detiene el agua antes de que dañe algo: {count} de {units}.",
    "Look for it on the round, trip it, and send `overflow_protection` the next time.": "Búsquelo en la ronda, dispárelo y envíe `overflow_protection` la próxima vez.",
    "Units that could not be read: {count} of {units}. They have no place in the order.": "Unidades que no se pudieron leer: {count} de {units}. No tienen lugar en el orden.",
    "Their rows say what is wrong with them; send them again.": "Sus filas dicen qué tienen mal; envíelas otra vez.",
    "Units for which no cleaning could be planned: {count} of {units}. Their time is not in the totals.": "Unidades para las que no se pudo planear ninguna limpieza: {count} de {units}. Su tiempo no está en los totales.",
    "Look for slips of unit or decimal point in what was sent of trap, line and pump.": "Busque errores de unidad de medida o de punto decimal en lo que se envió del sifón, la línea y la bomba.",
    "{count} units are to be cleaned with cartridges and take {needed} of them; there are {held} on the truck.": "{count} unidades se limpiarán con cartuchos y toman {needed} de ellos; en la camioneta hay {held}.",
    "Load {short} more.": "Cargue {short} más.",
    "{count} units are to be cleaned with regulated gas and take {needed:ft3|L} of it; the cylinder on the truck gives {held:ft3|L}.": "{count} unidades se limpiarán con gas regulado y toman {needed:ft3|L} de él; el cilindro en la camioneta da {held:ft3|L}.",
    "Load {cylinders} cylinders like it as it is now, or a fuller one.": "Cargue {cylinders} cilindros iguales a él como está ahora, o uno más lleno.",
    "Units that take longer than a day's {minutes} minutes each: {count}.": "Unidades que tardan más que los {minutes} minutos de un día cada una: {count}.",
    "Plan them over several days, or send more people to them.": "Planéelas en varios días, o mande más gente a ellas.",
}
