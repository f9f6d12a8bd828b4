"""The minute loop of a year, once more, for numba and for plain Python.

The same nodes, the same two-stage implicit step with the loop closed the same way, the same mixing,
the same passing of water, the same decisions and the same hours skipped as in crates/year. The
functions take plain numbers and numpy arrays, so that one source runs compiled and uncompiled: see
`compiled` at the end.
"""

import math

GAMMA = 1.0 - 1.0 / math.sqrt(2.0)
TOUCHING_K = 1e-7


def line_at(first, nodes_per_unit, values, x):
    along = min(max((x - first) * nodes_per_unit, 0.0), len(values) - 1.0)
    node = min(int(along), len(values) - 2)
    return values[node] + (along - node) * (values[node + 1] - values[node])


def coil_ua(table, fluid_k, water_k):
    difference_k = fluid_k - water_k
    root = math.copysign(math.sqrt(math.sqrt(abs(difference_k))), difference_k)
    along = min(max((fluid_k - 263.15) / 5.0, 0.0), 28.0)
    across = min(max((root + 3.2) / 0.2, 0.0), 32.0)
    row, column = min(int(along), 27), min(int(across), 31)
    share = across - column
    low = table[row, column] + share * (table[row, column + 1] - table[row, column])
    high = table[row + 1, column] + share * (table[row + 1, column + 1] - table[row + 1, column])
    return low + (along - row) * (high - low)


def loss_at(top, rest, empty_k, plate_k):
    along = min(max((plate_k - empty_k + 80.0) * 0.4, 0.0), 136.0)
    node = min(int(along), 135)
    share = along - node
    return (
        top[node] + share * (top[node + 1] - top[node]),
        rest[node] + share * (rest[node + 1] - rest[node]),
    )


def settle(layer_k, sums, counts):
    """Mixes layers (bottom first) until none is warmer than the one above."""
    groups = 0
    for layer in range(len(layer_k)):
        mean, count = layer_k[layer], 1
        while groups > 0 and sums[groups - 1] > mean:
            groups -= 1
            together = counts[groups] + count
            mean = (sums[groups] * counts[groups] + mean * count) / together
            count = together
        sums[groups], counts[groups] = mean, count
        groups += 1
    layer = 0
    for group in range(groups):
        for _ in range(counts[group]):
            layer_k[layer] = sums[group]
            layer += 1


def group(layer_k, rate, sums, counts):
    """Layers that move as one; returns how many groups, their sizes in counts."""
    groups = 0
    for layer in range(len(layer_k)):
        mean, count, first = rate[layer], 1, layer
        while groups > 0:
            touching = layer_k[first] - layer_k[first - 1] <= TOUCHING_K
            if not touching or sums[groups - 1] <= mean:
                break
            groups -= 1
            together = counts[groups] + count
            mean = (sums[groups] * counts[groups] + mean * count) / together
            count = together
            first -= counts[groups]
        sums[groups], counts[groups] = mean, count
        groups += 1
    return groups


def passing(inlet, outlet, taken, mains_k, layer_k, change_k):
    rest, plume_k, plume = inlet, mains_k, 1.0
    while rest > 0 and plume_k < layer_k[rest - 1]:
        plume_k = (plume * plume_k + taken * layer_k[rest]) / (plume + taken)
        plume += taken
        rest -= 1
    change_k[:] = 0.0
    change_k[rest] = plume * (plume_k - layer_k[rest])
    up = 0.0
    for below in range(len(layer_k) - 1):
        if below == rest:
            up += plume
        elif rest < below <= inlet:
            up -= taken
        if below == outlet:
            up -= 1.0
        step_k = layer_k[below] - layer_k[below + 1]
        if up > 0.0:
            change_k[below + 1] += up * step_k
        else:
            change_k[below] += up * step_k


def pass_water(inlet, outlet, taken, layer_m3, layer_j_k, mains_k, volume_m3, layer_k, room, sums, counts):
    layers = len(layer_k)
    steps = max(math.ceil((1.0 + taken * layers) * volume_m3 / (0.25 * layer_m3)), 1)
    part = volume_m3 / steps / layer_m3
    before, first, second = room[0], room[1], room[2]
    heat_j = 0.0
    for _ in range(steps):
        before[:] = layer_k
        passing(inlet, outlet, taken, mains_k, layer_k, first)
        out_first = layer_k[outlet]
        for layer in range(layers):
            layer_k[layer] += part * first[layer]
        passing(inlet, outlet, taken, mains_k, layer_k, second)
        out_second = layer_k[outlet]
        for layer in range(layers):
            layer_k[layer] = before[layer] + 0.5 * part * (first[layer] + second[layer])
        heat_j += part * layer_j_k * (0.5 * (out_first + out_second) - mains_k)
        settle(layer_k, sums, counts)
    return heat_j


def water_rates(loss_w_k, conduction_w_k, layer_j_k, loft_k, layer_k, rate):
    top = len(layer_k) - 1
    for layer in range(len(layer_k)):
        gain = loss_w_k[layer] * (loft_k - layer_k[layer])
        if layer > 0:
            gain += conduction_w_k * (layer_k[layer - 1] - layer_k[layer])
        if layer < top:
            gain += conduction_w_k * (layer_k[layer + 1] - layer_k[layer])
        rate[layer] = gain / layer_j_k


def stand_store(loss_w_k, conduction_w_k, layer_j_k, loft_k, step_s, layer_k, rate, sums, counts):
    water_rates(loss_w_k, conduction_w_k, layer_j_k, loft_k, layer_k, rate)
    groups = group(layer_k, rate, sums, counts)
    layers = len(layer_k)
    for layer in range(layers):
        power = 0.0
        if layer > 0:
            power += conduction_w_k * (layer_k[layer - 1] - layer_k[layer])
        if layer + 1 < layers:
            power += conduction_w_k * (layer_k[layer + 1] - layer_k[layer])
        rate[layer] = power
    lost_j, first = 0.0, 0
    for each in range(groups):
        end = first + counts[each]
        start_k = conduction = loss = 0.0
        for layer in range(first, end):
            start_k += layer_k[layer]
            conduction += rate[layer]
            loss += loss_w_k[layer]
        start_k /= counts[each]
        pace = layer_j_k * counts[each] / (GAMMA * step_s)
        one = (pace * start_k + loss * loft_k + conduction) / (pace + loss)
        base = start_k + (1.0 - GAMMA) / GAMMA * (one - start_k)
        two = (pace * base + loss * loft_k + conduction) / (pace + loss)
        lost_j += step_s * loss * ((1.0 - GAMMA) * (one - loft_k) + GAMMA * (two - loft_k))
        for layer in range(first, end):
            layer_k[layer] = two
        first = end
    settle(layer_k, sums, counts)
    return lost_j


def cool_pipe(capacity, loss, around_k, step_s, nodes_k):
    gone = 1.0 - math.exp(-loss * step_s / capacity)
    lost_j = 0.0
    for node in range(len(nodes_k)):
        fall = gone * (nodes_k[node] - around_k)
        nodes_k[node] -= fall
        lost_j += capacity * fall
    return lost_j


def idle_panels(area_m2, capacity, top, rest, empty_k, air_k, absorbed, step_s, plate_k):
    lost_j = 0.0
    for place in range(len(plate_k)):
        pace = capacity[place] / (GAMMA * step_s * area_m2[place])
        start_k = plate_k[place]
        up, around = loss_at(top, rest, empty_k, start_k)
        one = (pace * start_k + absorbed + up * empty_k + around * air_k) / (pace + up + around)
        lost_one = up * (one - empty_k) + around * (one - air_k)
        if abs(one - start_k) > 0.5:
            up, around = loss_at(top, rest, empty_k, one)
        base = start_k + (1.0 - GAMMA) / GAMMA * (one - start_k)
        two = (pace * base + absorbed + up * empty_k + around * air_k) / (pace + up + around)
        lost_two = up * (two - empty_k) + around * (two - air_k)
        plate_k[place] = two
        lost_j += ((1.0 - GAMMA) * lost_one + GAMMA * lost_two) * area_m2[place] * step_s
    return lost_j


def stand_cylinder(capacity, loss_w_k, room_k, delivery_k, step_s, cylinder_k):
    """New temperature and what the heater gave."""
    fallen_k = room_k + (cylinder_k - room_k) * math.exp(-loss_w_k * step_s / capacity)
    if fallen_k >= delivery_k:
        return fallen_k, 0.0
    falling_s = 0.0
    if cylinder_k > delivery_k:
        falling_s = capacity / loss_w_k * math.log((cylinder_k - room_k) / (delivery_k - room_k))
    return delivery_k, loss_w_k * (delivery_k - room_k) * (step_s - falling_s)


def run_step(
    area_m2, capacity, flow_pipe, return_pipe, share, rate, ua_table, coil_m, coil_way,
    layer_j_k, loss_w_k, conduction_w_k, top, rest, empty_k, air, absorbed, step_s,
    plate_k, flow_k, return_k, layer_k, layer_rate, left, sums, counts, node, base, last, drains, way, energy,
):
    """One running step; energies [panel loss, panel heat, circuit loss, coil heat, store loss]."""
    air_k, loft_k, flow_around, return_around = air[0], air[1], air[4], air[5]
    layers, panels = len(layer_k), len(plate_k)
    coil_in = flow_k[len(flow_k) - 1]
    water = length = 0.0
    for layer in coil_way:
        water += coil_m[layer] * layer_k[layer]
        length += coil_m[layer]
    ua = coil_ua(ua_table, 0.5 * (coil_in + return_k[0]), water / length)
    water_rates(loss_w_k, conduction_w_k, layer_j_k, loft_k, layer_k, layer_rate)
    for layer in range(layers):
        left[layer] = math.exp(-ua * coil_m[layer] / rate)
    stream = coil_in
    for layer in coil_way:
        given = (1.0 - left[layer]) * (stream - layer_k[layer])
        layer_rate[layer] += rate * given / layer_j_k
        stream -= given
    groups = group(layer_k, layer_rate, sums, counts)

    # Blocks: size, capacity, loss, conduction, effectiveness.
    block = drains[:groups]
    first = 0
    ways = 0
    for each in range(groups):
        end = first + counts[each]
        loss = conduction = 0.0
        passed = 1.0
        for layer in range(first, end):
            loss += loss_w_k[layer]
            passed *= left[layer]
        if first > 0:
            conduction += conduction_w_k * (layer_k[first - 1] - layer_k[first])
        if end < layers:
            conduction += conduction_w_k * (layer_k[end] - layer_k[end - 1])
        block[each, 0] = layer_j_k * counts[each]
        block[each, 1] = loss
        block[each, 2] = conduction
        block[each, 3] = 1.0 - passed
        first = end
    for each in range(groups - 1, -1, -1):
        if block[each, 3] > 0.0:
            way[ways] = each
            ways += 1

    returns, flows = len(return_k), len(flow_k)
    base[:returns] = return_k
    base[returns:returns + panels] = plate_k
    base[returns + panels:returns + panels + flows] = flow_k
    water_at = returns + panels + flows
    first = 0
    for each in range(groups):
        mean = 0.0
        for layer in range(first, first + counts[each]):
            mean += layer_k[layer]
        base[water_at + each] = mean / counts[each]
        first += counts[each]
    nodes = water_at + groups
    last[:nodes] = base[:nodes]

    pace_1_s = 1.0 / (GAMMA * step_s)
    panel_out = 0.0
    for stage in range(2):
        weight = step_s * ((1.0 - GAMMA) if stage == 0 else GAMMA)
        fixed, slope = 0.0, 1.0
        pace = return_pipe[1] * pace_1_s
        over = 1.0 / (pace + rate + return_pipe[2])
        for at in range(returns):
            fixed = (pace * base[at] + return_pipe[2] * return_around + rate * fixed) * over
            slope = rate * slope * over
            node[at, 0], node[at, 1] = fixed, slope
        in_fixed, in_slope = fixed, slope
        for place in range(panels):
            at = returns + place
            up, around = loss_at(top, rest, empty_k, last[at])
            up, around = up * area_m2[place], around * area_m2[place]
            node[at, 2], node[at, 3] = up, around
            pace = capacity[place] * pace_1_s
            pull = rate * share
            over = 1.0 / (pace + up + around + pull)
            gains = pace * base[at] + absorbed * area_m2[place] + up * empty_k + around * air_k
            node[at, 0] = (gains + pull * fixed) * over
            node[at, 1] = pull * slope * over
            fixed += share * (node[at, 0] - fixed)
            slope += share * (node[at, 1] - slope)
        out_fixed, out_slope = fixed, slope
        pace = flow_pipe[1] * pace_1_s
        over = 1.0 / (pace + rate + flow_pipe[2])
        for at in range(returns + panels, water_at):
            fixed = (pace * base[at] + flow_pipe[2] * flow_around + rate * fixed) * over
            slope = rate * slope * over
            node[at, 0], node[at, 1] = fixed, slope
        coil_fixed, coil_slope = fixed, slope
        for step in range(ways):
            each = way[step]
            at = water_at + each
            pace = block[each, 0] * pace_1_s
            pull = rate * block[each, 3]
            over = 1.0 / (pace + block[each, 1] + pull)
            gains = pace * base[at] + block[each, 1] * loft_k + block[each, 2]
            node[at, 0] = (gains + pull * fixed) * over
            node[at, 1] = pull * slope * over
            fixed += block[each, 3] * (node[at, 0] - fixed)
            slope += block[each, 3] * (node[at, 1] - slope)
        unknown = fixed / (1.0 - slope)
        panel_out = out_fixed + out_slope * unknown
        for at in range(water_at):
            last[at] = node[at, 0] + node[at, 1] * unknown
        for place in range(panels):
            plate = last[returns + place]
            energy[0] += weight * (
                node[returns + place, 2] * (plate - empty_k) + node[returns + place, 3] * (plate - air_k)
            )
        energy[1] += weight * rate * (panel_out - in_fixed - in_slope * unknown)
        for at in range(returns):
            energy[2] += weight * return_pipe[2] * (last[at] - return_around)
        for at in range(returns + panels, water_at):
            energy[2] += weight * flow_pipe[2] * (last[at] - flow_around)
        energy[3] += weight * rate * (coil_fixed + coil_slope * unknown - unknown)
        for each in range(groups):
            at = water_at + each
            if block[each, 3] > 0.0:
                last[at] = node[at, 0] + node[at, 1] * unknown
            else:
                pace = block[each, 0] * pace_1_s
                gains = pace * base[at] + block[each, 1] * loft_k + block[each, 2]
                last[at] = gains / (pace + block[each, 1])
            energy[4] += weight * block[each, 1] * (last[at] - loft_k)
        if stage == 0:
            for at in range(nodes):
                base[at] += (1.0 - GAMMA) / GAMMA * (last[at] - base[at])

    return_k[:] = last[:returns]
    plate_k[:] = last[returns:returns + panels]
    flow_k[:] = last[returns + panels:water_at]
    layer = 0
    for each in range(groups):
        for _ in range(counts[each]):
            layer_k[layer] = last[water_at + each]
            layer += 1
    settle(layer_k, sums, counts)
    return panel_out


def march(
    days, area_m2, capacity, rates, shares, flow_pipe, return_pipe, ua_table, coil_m, coil_way,
    store, places, loss_w_k, cylinder, control, hours, tops, rests, light, draw_minutes, draw_m3,
    plate_k, flow_k, return_k, layer_k, memory, rooms, node, base, last, drains, sums, counts, way, energy,
):
    """Marches some days; energies as the engine's dump lists them."""
    layer_j_k, layer_m3, heat_j_m3_k, conduction_w_k, taken, cylinder_k, delivery_k = (
        store[0], store[1], store[2], store[3], store[4], store[5], store[6],
    )
    inlet, outlet, probe = places[0], places[1], places[2]
    cylinder_j_k = cylinder[0] * heat_j_m3_k
    on_k, off_k, min_on, min_off = control[0], control[1], control[2], control[3]
    limit_k, reset_k, panel_limit_k = control[4], control[5], control[6]
    panel_follow = 1.0 - math.exp(-60.0 / control[8])
    store_follow = 1.0 - math.exp(-60.0 / control[10])
    running, since, full = memory[0] > 0.5, memory[1], memory[2] > 0.5
    panel_probe, store_probe = memory[3], memory[4]
    layer_rate, left = rooms[3], rooms[4]
    panel_out = plate_k[len(plate_k) - 1]
    draw, stood_s = 0, 0.0
    for hour in range(days * 24):
        air = hours[hour]
        top, rest, empty_k, air_k, loft_k, mains_k = tops[hour], rests[hour], air[3], air[0], air[1], air[2]
        brightest = 0.0
        for minute in range(hour * 60, hour * 60 + 60):
            brightest = max(brightest, light[minute])
        coldest = min(mains_k, loft_k)
        for layer in range(len(layer_k)):
            coldest = min(coldest, layer_k[layer])
        starting_k = min(coldest, store_probe) + control[9] + on_k - control[7] - 0.1
        hottest = panel_probe
        for place in range(len(plate_k)):
            hottest = max(hottest, plate_k[place])
        up, around = loss_at(top, rest, empty_k, starting_k)
        losing = up * (starting_k - empty_k) + around * (starting_k - air_k)
        dim = (not running) and hottest < starting_k and losing > brightest
        if dim:
            for stride in range(3):
                mean = 0.0
                for minute in range(hour * 60 + stride * 20, hour * 60 + stride * 20 + 20):
                    mean += light[minute] / 20.0
                energy[0] += idle_panels(area_m2, capacity, top, rest, empty_k, air_k, mean, 1200.0, plate_k)
            panel_out = plate_k[len(plate_k) - 1]
        for minute in range(hour * 60, hour * 60 + 60):
            flowing = False
            if not dim:
                panel_k, store_k = panel_probe + control[7], store_probe + control[9]
                full = store_k > limit_k - reset_k if full else store_k >= limit_k
                difference_k = panel_k - store_k
                if full:
                    runs = False
                elif running:
                    runs = difference_k > off_k or since < min_on
                else:
                    runs = difference_k >= on_k and since >= min_off and panel_k <= panel_limit_k
                if runs != running:
                    since = 0.0
                running = runs
                flowing = runs
            volume = 0.0
            if draw < len(draw_minutes) and draw_minutes[draw] == minute:
                volume = draw_m3[draw]
                draw += 1
            if (volume > 0.0 or flowing) and stood_s > 0.0:
                energy[2] += cool_pipe(return_pipe[1], return_pipe[2], air[5], stood_s, return_k)
                energy[2] += cool_pipe(flow_pipe[1], flow_pipe[2], air[4], stood_s, flow_k)
                energy[4] += stand_store(
                    loss_w_k, conduction_w_k, layer_j_k, loft_k, stood_s, layer_k, layer_rate, sums, counts
                )
                cylinder_k, gave = stand_cylinder(
                    cylinder_j_k, cylinder[1], cylinder[2], delivery_k, stood_s, cylinder_k
                )
                energy[6] += gave
                stood_s = 0.0
            for half in range(2 if flowing else 1):
                part = 0.5 * volume if flowing else volume
                if part > 0.0:
                    heat = pass_water(
                        inlet, outlet, taken, layer_m3, layer_j_k, mains_k, part, layer_k, rooms, sums, counts
                    )
                    energy[5] += heat
                    out_k = mains_k + heat / (part * heat_j_m3_k)
                    mixed = cylinder_k + (1.0 - math.exp(-part / cylinder[0])) * (out_k - cylinder_k)
                    energy[6] += cylinder_j_k * max(delivery_k - mixed, 0.0)
                    cylinder_k = max(mixed, delivery_k)
                if flowing and half == 0:
                    loop_k = 0.5 * plate_k.mean() + 0.25 * (flow_k.mean() + return_k.mean())
                    rate = line_at(243.15, 1.0, rates, loop_k)
                    share = line_at(243.15, 1.0, shares, loop_k)
                    panel_out = run_step(
                        area_m2, capacity, flow_pipe, return_pipe, share, rate, ua_table, coil_m,
                        coil_way, layer_j_k, loss_w_k, conduction_w_k, top, rest, empty_k, air,
                        light[minute], 60.0, plate_k, flow_k, return_k, layer_k, layer_rate, left,
                        sums, counts, node, base, last, drains, way, energy,
                    )
                    energy[7] += 60.0
                    cylinder_k, gave = stand_cylinder(
                        cylinder_j_k, cylinder[1], cylinder[2], delivery_k, 60.0, cylinder_k
                    )
                    energy[6] += gave
            if not flowing:
                stood_s += 60.0
                if not dim:
                    energy[0] += idle_panels(
                        area_m2, capacity, top, rest, empty_k, air_k, light[minute], 60.0, plate_k
                    )
                    panel_out = plate_k[len(plate_k) - 1]
            if not dim:
                panel_probe += panel_follow * (panel_out - panel_probe)
                store_probe += store_follow * (layer_k[probe] - store_probe)
                since += 60.0
        if dim:
            since += 3600.0
            panel_probe, store_probe = panel_out, layer_k[probe]
        if stood_s > 0.0:
            energy[2] += cool_pipe(return_pipe[1], return_pipe[2], air[5], stood_s, return_k)
            energy[2] += cool_pipe(flow_pipe[1], flow_pipe[2], air[4], stood_s, flow_k)
            energy[4] += stand_store(
                loss_w_k, conduction_w_k, layer_j_k, loft_k, stood_s, layer_k, layer_rate, sums, counts
            )
            cylinder_k, gave = stand_cylinder(
                cylinder_j_k, cylinder[1], cylinder[2], delivery_k, stood_s, cylinder_k
            )
            energy[6] += gave
            stood_s = 0.0


def compiled():
    """Puts every function of this module through numba; returns the compiled march."""
    import numba

    here = globals()
    for name in (
        "line_at", "coil_ua", "loss_at", "settle", "group", "passing", "pass_water", "water_rates",
        "stand_store", "cool_pipe", "idle_panels", "stand_cylinder", "run_step", "march",
    ):
        here[name] = numba.njit(here[name])
    return here["march"]
