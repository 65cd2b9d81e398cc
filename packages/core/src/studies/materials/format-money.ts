import { formatNumber } from '../../quantity/format.js';
import type { Money } from './price-list.js';

/** Money to two digits, three where it carries no range: `9,800 dollars`. */
export const formatMoney = (money: Money, currency: string): string =>
  `${formatAmount(money.typical, money.low < money.high ? 2 : 3)} ${currency}`;

/** An amount without its currency, in whole units from ten up. */
export const formatAmount = (amount: number, digits = 2): string =>
  Math.abs(amount) >= 10 ? formatNumber(Math.round(amount), digits) : formatNumber(amount, digits);

/** `6,900 to 14,000`. */
export const formatMoneyRange = ({ low, high }: Money): string => `${formatAmount(low)} to ${formatAmount(high)}`;
